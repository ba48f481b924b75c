import { SURFACES } from '../diamond/play-codes.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import type { Term } from '../models/terms.ts';
import { allocateGeometry, infieldGeometryInto, WIDEST_GAP_FT } from './chance-order.ts';
import { fitChance } from './fit-chance.ts';
import { FULL } from './grades.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';
import { BallClock, type TravelModel } from './travel-time.ts';

const gapMargin = (segments: number) => ({ covariate: 'gap', lo: -WIDEST_GAP_FT, hi: WIDEST_GAP_FT, segments });
const arrivalMargin = (segments: number) => ({ covariate: 'arrival', lo: 0.3, hi: 4.3, segments });

/**
 * h: the chance that a defender gathers, given that nobody before him did (method.md 2). Pitcher and catcher start from one
 * place and gather little, so a coarser surface is enough for them.
 */
function reachTerms(position: number): readonly Term[] {
  const [gap, arrival] = position <= 2 ? [8, 4] : [15, 8];
  return [
    { kind: 'tensor', margins: [gapMargin(gap), arrivalMargin(arrival)] },
    {
      kind: 'tensor',
      margins: [
        { covariate: 'speed', lo: 20, hi: 120, segments: 6 },
        { covariate: 'launch', lo: -60, hi: 20, segments: 5 },
      ],
    },
    { kind: 'random', covariate: 'surface', levels: SURFACES.length },
  ];
}

/** c: the chance of an out if a given defender will gather, known before he does (method.md 3). */
const PROMISE_TERMS: readonly Term[] = [
  { kind: 'smooth', margin: gapMargin(15) },
  { kind: 'smooth', margin: arrivalMargin(8) },
  { kind: 'smooth', margin: { covariate: 'runner', lo: 3.6, hi: 5.2, segments: 5 } },
  { kind: 'random', covariate: 'state', levels: 24 },
];

/** Surfaces of one position; `reach` and `promise` are on the logit scale. */
export interface PositionChances {
  readonly reach: FittedModel;
  readonly promise: FittedModel;
}

/** Columns of the rows of one position while they are collected. */
class RowColumns {
  readonly gap: number[] = [];
  readonly arrival: number[] = [];
  readonly speed: number[] = [];
  readonly launch: number[] = [];
  readonly surface: number[] = [];
  readonly runner: number[] = [];
  readonly state: number[] = [];
  readonly response: number[] = [];

  fit(name: string, terms: readonly Term[]): FittedModel {
    const { gap, arrival, speed, launch, surface, runner, state, response } = this;
    const covariates = { gap, arrival, speed, launch, surface, runner, state };
    return fitChance(name, terms, { count: response.length, covariates, response });
  }
}

/**
 * Fits reach and promise for positions 1 to 6 (index 0 to 5). Rows of reach: each defender up to the one who gathered,
 * or up to the one who touched the ball and lost it; those after him are censored and give no row.
 */
export function fitPositionChances(
  grounders: Grounders,
  travel: TravelModel,
  onFitted: (done: number) => void,
): PositionChances[] {
  const reachRows = Array.from({ length: INFIELD_SIZE }, () => new RowColumns());
  const promiseRows = Array.from({ length: INFIELD_SIZE }, () => new RowColumns());
  collectRows(grounders, travel, reachRows, promiseRows);
  return reachRows.map((rows, k) => {
    const reach = rows.fit(`reach ${k + 1}`, reachTerms(k + 1));
    const promise = promiseRows[k].fit(`promise ${k + 1}`, PROMISE_TERMS);
    onFitted(k + 1);
    return { reach, promise };
  });
}

function collectRows(
  grounders: Grounders,
  travel: TravelModel,
  reachRows: RowColumns[],
  promiseRows: RowColumns[],
): void {
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
    );
    const row = grounders.row[at];
    const gatherer = table.gatheredBy[row] - 1;
    const last = lastAtRisk(table.gatheredBy[row], table.touchedBy[row]) - 1;
    for (const k of geometry.order) {
      if (Math.abs(geometry.gap[k]) <= WIDEST_GAP_FT) {
        pushRow(reachRows[k], grounders, at, geometry.gap[k], geometry.arrival[k], k === gatherer ? 1 : 0);
        if (k === gatherer)
          pushRow(promiseRows[k], grounders, at, geometry.gap[k], geometry.arrival[k], grounders.closed[at]);
      }
      if (k === last) break;
    }
  }
}

/** Position of the last defender who had a chance: who gathered, else who touched it; 0 when everybody had his. */
export function lastAtRisk(gatheredBy: number, touchedBy: number): number {
  return gatheredBy > 0 ? gatheredBy : touchedBy;
}

function pushRow(
  rows: RowColumns,
  grounders: Grounders,
  at: number,
  gap: number,
  arrival: number,
  response: number,
): void {
  rows.gap.push(gap);
  rows.arrival.push(arrival);
  rows.speed.push(grounders.exitSpeedMph[at]);
  rows.launch.push(grounders.launchAngleDeg[at]);
  rows.surface.push(grounders.surface[at]);
  rows.runner.push(grounders.batterToFirstS[at]);
  rows.state.push(grounders.state[at]);
  rows.response.push(response);
}
