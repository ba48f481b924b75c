import type { RowSource } from '../state/table/row-source.ts';
import { windowAt } from '../state/table/virtual-window.ts';

export const ROW_PX = 34;
/** Rows on paper: a longer table is for a file. */
const PRINTED_ROWS = 400;

/** Which rows of a table are on the page: those in sight, or when it is printed all of them. */
export class GridWindow {
  scrollPx = $state(0);
  frameHeight = $state(0);
  headHeight = $state(0);
  isPrinting = $state(false);
  readonly #source: () => RowSource;
  /** Counts what the source has told of itself, because a source is not followed by itself. */
  #changes = $state(0);
  /** Null as long as it is not known. */
  readonly rowCount = $derived.by(() => this.#follow().rowCount);
  readonly failure = $derived.by(() => this.#follow().failure);
  readonly measures = $derived.by(() => ({
    rowCount: this.rowCount ?? 0,
    rowPx: ROW_PX,
    viewPx: Math.max(ROW_PX, this.frameHeight - this.headHeight),
  }));
  readonly seen = $derived.by(() => windowAt(this.measures, this.scrollPx));

  constructor(source: () => RowSource) {
    this.#source = source;
  }

  changed(): void {
    this.#changes += 1;
  }

  #follow(): RowSource {
    void this.#changes;
    return this.#source();
  }

  row(index: number) {
    return this.#follow().row(index);
  }

  /** Asks for what is in sight. */
  need(): void {
    this.#follow().need(this.seen.first, Math.max(this.seen.end, 1));
  }

  topOf(index: number): number {
    return this.seen.topPx + (index - this.seen.first) * ROW_PX;
  }

  /** Rows to draw. The row with the focus stays, out of sight, or the focus would be lost with it: -1 for none. */
  indices(focusedRow: number): number[] {
    const { rowCount } = this.measures;
    const [first, end] = this.isPrinting ? [0, Math.min(rowCount, PRINTED_ROWS)] : [this.seen.first, this.seen.end];
    const list = Array.from({ length: Math.max(0, end - first) }, (_, at) => first + at);
    if (this.isPrinting || focusedRow < 0 || focusedRow >= rowCount) return list;
    if (focusedRow < first) list.unshift(focusedRow);
    else if (focusedRow >= end) list.push(focusedRow);
    return list;
  }
}
