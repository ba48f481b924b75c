import type { PlayTable } from '../../chances/play-table.ts';
import { type Advancement, everyState, SIMPLE_ADVANCEMENT } from './advancement.ts';
import { BASE_OUT_STATES } from './base-out.ts';
import { type BallClass, type BaseRunning, measureBaseRunning } from './base-running.ts';
import { type EventValues, eventValues, runsOf } from './event-values.ts';
import { doubleWays, singleWays } from './hit-ways.ts';
import { catchWays, groundOutWays, turnWays } from './out-ways.ts';
import { sequencePlays } from './play-sequence.ts';
import { type RunTable, runTable } from './run-table.ts';

/** Everything about runs that a book's plays say, ready for stakes. */
export interface RunValues {
  readonly table: RunTable;
  readonly running: Readonly<Record<BallClass, BaseRunning>>;
  readonly events: Readonly<Record<BallClass, EventValues>>;
  /**
   * Runs that the second out of a double play on the ground saves, given that the first is made, by base-out state; NaN without
   * a man on first or with two outs.
   */
  readonly turn: Float64Array;
}

/** Advancement on one class of balls: D'Esopo and Lefkowitz, with singles, doubles and outs as the book's runners take them. */
export function advancementOn(ball: BallClass, running: BaseRunning): Advancement {
  return {
    ...SIMPLE_ADVANCEMENT,
    out: ball === 'ground' ? groundOutWays(running) : catchWays(running),
    single: singleWays(running),
    double: doubleWays(running),
  };
}

/** Run table, base running and values of events of a book. Throws RangeError for a table without plays. */
export function runValues(plays: PlayTable, options: { readonly fewestInnings?: number } = {}): RunValues {
  const sequence = sequencePlays(plays);
  const table = runTable(plays, { ...options, sequence });
  const running = {
    ground: measureBaseRunning(plays, sequence, 'ground'),
    air: measureBaseRunning(plays, sequence, 'air'),
  };
  return valuesOf(table, running);
}

/** What follows from a run table and the base running. */
export function valuesOf(table: RunTable, running: RunValues['running']): RunValues {
  const events = {
    ground: eventValues(table, advancementOn('ground', running.ground)),
    air: eventValues(table, advancementOn('air', running.air)),
  };
  return { table, running, events, turn: turnValues(table.runs, running.ground) };
}

/** Expected runs after one out on the ground less those after two, by base-out state. */
function turnValues(runs: ArrayLike<number>, running: BaseRunning): Float64Array {
  const values = new Float64Array(BASE_OUT_STATES).fill(Number.NaN);
  everyState((state) => turnWays(state, running)).forEach((turn, state) => {
    if (turn !== null) values[state] = runsOf(runs, turn.one) - runsOf(runs, [turn.two]);
  });
  return values;
}
