import type { Margin, Term } from '../../models/terms.ts';

/** The same covariates without any two acting together: each tensor gives way to a smooth of each of its margins. */
export function additiveOnly(terms: readonly Term[]): Term[] {
  const smooth = (margin: Margin): Term => ({ kind: 'smooth', margin });
  const split = terms.flatMap((term) => (term.kind === 'tensor' ? term.margins.map(smooth) : [term]));
  const seen = new Set<string>();
  return split.filter((term) => {
    if (term.kind !== 'smooth') return true;
    const isNew = !seen.has(term.margin.covariate);
    seen.add(term.margin.covariate);
    return isNew;
  });
}

/** Edges of the cells by bearing (degrees) and speed (mph); what lies outside goes to the outermost cell. */
export const BEARING_EDGES = [-45, -35, -25, -15, -5, 5, 15, 25, 35, 45] as const;
export const SPEED_EDGES = [0, 45, 60, 75, 90, 105, 130] as const;

/** Number of the cell that holds x, the outermost ones taking what lies beyond; -1 for NaN. */
export function cellOf(edges: readonly number[], x: number): number {
  if (Number.isNaN(x)) return -1;
  let cell = 0;
  while (cell < edges.length - 2 && x >= edges[cell + 1]) cell += 1;
  return cell;
}

/** Shares in cells of bearing and speed, what a table on paper would hold; each drawn toward the mean by one row's worth. */
export class ShareTable {
  private readonly happened = new Float64Array((BEARING_EDGES.length - 1) * (SPEED_EDGES.length - 1));
  private readonly rows = new Float64Array(this.happened.length);
  private sum = 0;
  private n = 0;

  add(bearingDeg: number, speedMph: number, outcome: number): void {
    this.sum += outcome;
    this.n += 1;
    const cell = this.cell(bearingDeg, speedMph);
    if (cell < 0) return;
    this.happened[cell] += outcome;
    this.rows[cell] += 1;
  }

  /** The constant: share over all rows, half when there are none. */
  get mean(): number {
    return (this.sum + 0.5) / (this.n + 1);
  }

  /** Share of the cell; the mean when bearing or speed is not known. */
  share(bearingDeg: number, speedMph: number): number {
    const cell = this.cell(bearingDeg, speedMph);
    return cell < 0 ? this.mean : (this.happened[cell] + this.mean) / (this.rows[cell] + 1);
  }

  private cell(bearingDeg: number, speedMph: number): number {
    const column = cellOf(BEARING_EDGES, bearingDeg);
    const row = cellOf(SPEED_EDGES, speedMph);
    return column < 0 || row < 0 ? -1 : row * (BEARING_EDGES.length - 1) + column;
  }
}
