import { bearingDegOf } from '../../diamond/bearing.ts';
import type { ModelData } from '../../models/fit-model.ts';
import { lastAtRisk } from '../chance-rows.ts';
import { FULL } from '../grades.ts';
import { AIR_MEN, type AirBalls } from './air-balls.ts';
import type { Flights } from './carry.ts';
import { RunGeometry, takesHops } from './run-geometry.ts';

/** Feet short of a usual run beyond which nobody has any chance: no row, and reach is 0 (method.md 2). */
export const WIDEST_SHORT_FT = 20;

/** Covariates of a chance in the air, in the names of the terms of reach. */
export const AIR_COVARIATES = [
  'short',
  'time',
  'in',
  'across',
  'height',
  'hop',
  'kind',
  'speed',
  'bearing',
  'depth',
] as const;
type AirCovariate = (typeof AIR_COVARIATES)[number];

export interface AirRows {
  /**
   * Positions 1 to 9 (index 0 to 8): on balls of grade `full`, each defender with a chance up to the one who caught the ball,
   * or dropped it, in order of required speed; those after him are censored. The response is whether he got to it.
   */
  readonly reach: readonly AirData[];
  /** A row for each ball that somebody got to; the response is whether he kept it. */
  readonly kept: AirData;
}

/** Rows to fit; `at` numbers the balls. */
export interface AirData extends ModelData {
  readonly at: Int32Array;
}

export function collectAirRows(balls: AirBalls, flights: Flights): AirRows {
  const drafts = Array.from({ length: AIR_MEN }, () => new RowDraft(balls.count));
  const kept = new RowDraft(balls.count);
  const geometry = Array.from({ length: AIR_MEN }, () => new RunGeometry());
  const order = new Int32Array(AIR_MEN);
  const { table } = balls;
  for (let at = 0; at < balls.count; at += 1) {
    if (balls.grade[at] !== FULL) continue;
    for (let k = 0; k < AIR_MEN; k += 1) {
      const man = geometry[k];
      man.setBall(flights.sin[at], flights.cos[at], flights.distanceFt[at], flights.hangS[at]);
      man.standAt(
        balls.starts[(at * AIR_MEN + k) * 2],
        balls.starts[(at * AIR_MEN + k) * 2 + 1],
        takesHops(k, balls.kind[at]),
      );
      let place = k;
      while (place > 0 && geometry[order[place - 1]].needFtS > man.needFtS) {
        order[place] = order[place - 1];
        place -= 1;
      }
      order[place] = k;
    }
    const row = balls.row[at];
    const last = lastAtRisk(table.gatheredBy[row], table.touchedBy[row]) - 1;
    for (const k of order) {
      if (geometry[k].shortFt <= WIDEST_SHORT_FT) drafts[k].add(geometry[k], balls, flights, at, k === last ? 1 : 0);
      if (k === last) break;
    }
    if (last >= 0) kept.add(geometry[last], balls, flights, at, table.gatheredBy[row] > 0 ? 1 : 0);
  }
  return { reach: drafts.map((draft) => draft.data()), kept: kept.data() };
}

/** Columns of one position while they are filled; no position has more rows than there are balls. */
class RowDraft {
  private count = 0;
  private readonly columns: Readonly<Record<AirCovariate, Float64Array>>;
  private readonly response: Float64Array;
  private readonly at: Int32Array;

  constructor(capacity: number) {
    const column = () => new Float64Array(capacity);
    this.columns = {
      short: column(),
      time: column(),
      in: column(),
      across: column(),
      height: column(),
      hop: column(),
      kind: column(),
      speed: column(),
      bearing: column(),
      depth: column(),
    };
    this.response = column();
    this.at = new Int32Array(capacity);
  }

  add(man: RunGeometry, balls: AirBalls, flights: Flights, at: number, response: number): void {
    const k = this.count;
    const { columns } = this;
    columns.short[k] = man.shortFt;
    columns.time[k] = man.timeS;
    columns.in[k] = man.inFt;
    columns.across[k] = man.acrossFt;
    columns.height[k] = man.heightFt;
    columns.hop[k] = man.hopFt;
    columns.kind[k] = balls.kind[at];
    columns.speed[k] = balls.exitSpeedMph[at];
    columns.bearing[k] = bearingDegOf(flights.sin[at], flights.cos[at]);
    columns.depth[k] = flights.distanceFt[at];
    this.response[k] = response;
    this.at[k] = at;
    this.count += 1;
  }

  data(): AirData {
    const { count } = this;
    const covariates = Object.fromEntries(
      Object.entries(this.columns).map(([name, column]) => [name, column.slice(0, count)]),
    );
    return { count, covariates, response: this.response.slice(0, count), at: this.at.slice(0, count) };
  }
}
