import type { ModelData } from '../models/fit-model.ts';
import {
  allocateGeometry,
  infieldGeometryInto,
  spareS,
  throwFromLineFt,
  type turnS,
  WIDEST_GAP_FT,
} from './chance-order.ts';
import { FULL } from './grades.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';
import { BallClock, type TravelModel } from './travel-time.ts';

/** Covariates of a chance, in the names of the terms of reach and promise. */
export type ChanceCovariate = 'gap' | 'arrival' | 'spare' | 'speed' | 'launch' | 'surface' | 'runner' | 'state';

/**
 * The chances of one position: a row for each grounder of grade `full` whose line passes within WIDEST_GAP_FT of him.
 * Columns have length `count`, in the order of the grounders.
 */
export interface ChanceRows {
  readonly count: number;
  /** Number of the grounder. */
  readonly at: Int32Array;
  /** Place in the chance order, from 0. */
  readonly place: Uint8Array;
  /** 1 for those up to the one who gathered, or touched and lost it: rows of reach. The others are censored. */
  readonly atRisk: Uint8Array;
  /** 1 when he gathered: rows of promise. */
  readonly gathered: Uint8Array;
  readonly covariates: Readonly<Record<ChanceCovariate, Float64Array>>;
}

/** Position of the last defender who had a chance: who gathered, else who touched it; 0 when everybody had his. */
export function lastAtRisk(gatheredBy: number, touchedBy: number): number {
  return gatheredBy > 0 ? gatheredBy : touchedBy;
}

/** Rows of positions 1 to 6 (index 0 to 5); `turnOf` is another chance order to try. */
export function collectChanceRows(grounders: Grounders, travel: TravelModel, turnOf?: typeof turnS): ChanceRows[] {
  const drafts = Array.from({ length: INFIELD_SIZE }, () => new RowDraft(grounders));
  const clock = new BallClock(travel);
  const geometry = allocateGeometry();
  const { table } = grounders;
  for (let at = 0; at < grounders.count; at += 1) {
    if (grounders.grade[at] !== FULL) continue;
    clock.setBall(grounders.exitSpeedMph[at], grounders.launchAngleDeg[at], grounders.surface[at]);
    infieldGeometryInto(
      clock,
      grounders.sinBearing[at],
      grounders.cosBearing[at],
      grounders.starts,
      at * 2 * INFIELD_SIZE,
      geometry,
      turnOf,
    );
    const row = grounders.row[at];
    const gatherer = table.gatheredBy[row] - 1;
    const last = lastAtRisk(table.gatheredBy[row], table.touchedBy[row]) - 1;
    let atRisk = 1;
    for (let place = 0; place < INFIELD_SIZE; place += 1) {
      const k = geometry.order[place];
      if (Math.abs(geometry.gap[k]) <= WIDEST_GAP_FT) {
        const gathered = atRisk === 1 && k === gatherer ? 1 : 0;
        drafts[k].add(at, k, place, atRisk, gathered, geometry.gap[k], geometry.arrival[k]);
      }
      if (k === last) atRisk = 0;
    }
  }
  return drafts.map((draft) => draft.rows());
}

/** Rows on which reach is fitted: did he gather, given that nobody before him did? `at` numbers the grounders. */
export function reachData(rows: ChanceRows): ModelData & { readonly at: Int32Array } {
  const kept = numbersWhere(rows.atRisk);
  return {
    ...takeCovariates(rows, kept),
    response: Float64Array.from(kept, (k) => rows.gathered[k]),
    at: kept.map((k) => rows.at[k]),
  };
}

/** Rows on which promise is fitted: was there an out, given that he gathered? */
export function promiseData(rows: ChanceRows, grounders: Grounders): ModelData {
  const kept = numbersWhere(rows.gathered);
  return { ...takeCovariates(rows, kept), response: Float64Array.from(kept, (k) => grounders.closed[rows.at[k]]) };
}

function numbersWhere(column: Uint8Array): Int32Array {
  const kept: number[] = [];
  for (let k = 0; k < column.length; k += 1) if (column[k] === 1) kept.push(k);
  return Int32Array.from(kept);
}

function takeCovariates(rows: ChanceRows, kept: Int32Array): Pick<ModelData, 'count' | 'covariates'> {
  const taken = Object.entries(rows.covariates).map(([name, column]) => [
    name,
    Float64Array.from(kept, (k) => column[k]),
  ]);
  return { count: kept.length, covariates: Object.fromEntries(taken) };
}

/** Columns of one position while they are filled; no position has more rows than there are grounders. */
class RowDraft {
  private readonly grounders: Grounders;
  private count = 0;
  private readonly at: Int32Array;
  private readonly place: Uint8Array;
  private readonly atRisk: Uint8Array;
  private readonly gathered: Uint8Array;
  private readonly gap: Float64Array;
  private readonly arrival: Float64Array;
  private readonly throwFt: Float64Array;

  constructor(grounders: Grounders) {
    this.grounders = grounders;
    this.at = new Int32Array(grounders.count);
    this.place = new Uint8Array(grounders.count);
    this.atRisk = new Uint8Array(grounders.count);
    this.gathered = new Uint8Array(grounders.count);
    this.gap = new Float64Array(grounders.count);
    this.arrival = new Float64Array(grounders.count);
    this.throwFt = new Float64Array(grounders.count);
  }

  add(at: number, man: number, place: number, atRisk: number, gathered: number, gap: number, arrival: number): void {
    const k = this.count;
    const { starts, sinBearing, cosBearing } = this.grounders;
    const from = (at * INFIELD_SIZE + man) * 2;
    this.throwFt[k] = throwFromLineFt(sinBearing[at], cosBearing[at], starts[from], starts[from + 1]);
    this.at[k] = at;
    this.place[k] = place;
    this.atRisk[k] = atRisk;
    this.gathered[k] = gathered;
    this.gap[k] = gap;
    this.arrival[k] = arrival;
    this.count += 1;
  }

  rows(): ChanceRows {
    const { grounders, count } = this;
    const at = this.at.slice(0, count);
    const pick = (column: ArrayLike<number>) => Float64Array.from(at, (g) => column[g]);
    return {
      count,
      at,
      place: this.place.slice(0, count),
      atRisk: this.atRisk.slice(0, count),
      gathered: this.gathered.slice(0, count),
      covariates: {
        gap: this.gap.slice(0, count),
        arrival: this.arrival.slice(0, count),
        spare: this.throwFt
          .slice(0, count)
          .map((feet, k) => spareS(grounders.batterToFirstS[at[k]], this.arrival[k], feet)),
        speed: pick(grounders.exitSpeedMph),
        launch: pick(grounders.launchAngleDeg),
        surface: pick(grounders.surface),
        runner: pick(grounders.batterToFirstS),
        state: pick(grounders.state),
      },
    };
  }
}
