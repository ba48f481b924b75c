import type { Grounders } from '../../chances/grounders.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS } from '../../diamond/play-codes.ts';
import { FLAT_STAKE_RUNS } from '../stake.ts';
import { FLAT_TURN_STAKE_RUNS } from '../turn-stake.ts';
import type { Turn } from './advancement.ts';
import type { EventValues } from './event-values.ts';
import { type HitModel, predictHits } from './hit-model.ts';
import type { RunValues } from './run-values.ts';

/** How an out is turned into runs: 0.75 a play; by the hit it would be; by that and the base-out state. */
export const RUN_MODES = ['flat', 'neutral', 'state'] as const;
export type RunMode = (typeof RUN_MODES)[number];

/** What the modes other than `flat` rest on. */
export interface StakeModels {
  readonly values: RunValues;
  readonly hits: HitModel;
}

const AIR_KINDS: readonly number[] = (['liner', 'fly', 'popup'] as const).map((kind) => BALL_KINDS.indexOf(kind));
const HITS: readonly Turn[] = ['single', 'double', 'triple'];

/**
 * Stakes of the given rows of a table in runs (method.md 8): the value of the hit that each ball would be less that of the out,
 * stake = sum over single, double, triple of P(hit | ball) value(hit) - value(out). `neutral` takes the values' means over
 * the states, `state` those of the play's own base-out state. Bunts go with grounders. Throws RangeError when a mode other than
 * `flat` has no models.
 */
export function stakes(plays: PlayTable, rows: ArrayLike<number>, mode: RunMode, models?: StakeModels): Float64Array {
  if (mode === 'flat') return new Float64Array(rows.length).fill(FLAT_STAKE_RUNS);
  if (models === undefined)
    throw new RangeError(`stakes in mode ${mode} need run values and a hit model, received none`);
  const { events } = models.values;
  const chances = predictHits(models.hits, plays, rows);
  const out = new Float64Array(rows.length);
  for (let k = 0; k < rows.length; k += 1) {
    const row = rows[k];
    const own = AIR_KINDS.includes(plays.ballKind[row]) ? events.air : events.ground;
    const state = mode === 'state' ? plays.outsBefore[row] * 8 + plays.bases[row] : -1;
    let hit = 0;
    for (let h = 0; h < HITS.length; h += 1) hit += chances[k * 3 + h] * worthOf(own, HITS[h], state);
    out[k] = hit - worthOf(own, 'out', state);
  }
  return out;
}

/** Value in a state, or the neutral one for state -1. */
function worthOf(events: EventValues, turn: Turn, state: number): number {
  const { byState, neutral } = events[turn];
  return state < 0 ? neutral : byState[state];
}

/** Runs of a second out for each grounder, 0 where none is possible: flat, the mean over the states, or the play's own state. */
export function turnStakes(grounders: Grounders, mode: RunMode, models?: StakeModels): Float64Array {
  if (mode === 'flat') return new Float64Array(grounders.count).fill(FLAT_TURN_STAKE_RUNS);
  if (models === undefined) throw new RangeError(`turn stakes in mode ${mode} need run values, received none`);
  const { turn } = models.values;
  const own = Float64Array.from(grounders.state, (state) => (Number.isNaN(turn[state]) ? 0 : turn[state]));
  if (mode === 'state') return own;
  const possible = own.filter((runs) => runs !== 0);
  const mean = possible.reduce((sum, runs) => sum + runs, 0) / Math.max(possible.length, 1);
  return own.map((runs) => (runs === 0 ? 0 : mean));
}
