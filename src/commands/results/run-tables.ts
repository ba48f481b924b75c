import type { ColumnTable } from '../../book/store.ts';
import { TURNS } from '../../ledger/runs/advancement.ts';
import { BASE_OUT_STATES, baseOutName, runnersName } from '../../ledger/runs/base-out.ts';
import type { RunValues } from '../../ledger/runs/run-values.ts';
import { TableWriter } from './columns.ts';

const STATES = Array.from({ length: BASE_OUT_STATES }, (_, state) => state);
/** Events that a ball in play may come to; walks and home runs are nobody's to field. */
const EVENTS = TURNS.filter((turn) => turn !== 'walk' && turn !== 'home_run');

/** The run table that stands behind the values, one row a base-out state. */
export function runTableTable({ table }: RunValues): ColumnTable {
  return new TableWriter(STATES)
    .text('state', baseOutName)
    .text('runners', runnersName)
    .integer('outs', (state) => state >> 3)
    .number('runs', (state) => table.runs[state])
    .number('se', (state) => table.standardError[state])
    .integer('innings', (state) => table.innings[state])
    .text('source', () => table.source)
    .table();
}

interface ValueRow {
  readonly ball: string;
  readonly event: string;
  /** null for the mean over the states as they occur. */
  readonly state: number | null;
  readonly runs: number;
}

/**
 * What hits and outs are worth to the batting side, by class of ball, event and state; the row without a state is the mean. The
 * second out is what it adds to the first, where it is possible.
 */
export function runValuesTable({ events, turn }: RunValues): ColumnTable {
  const rows: ValueRow[] = (['ground', 'air'] as const).flatMap((ball) =>
    EVENTS.flatMap((event) => {
      const { neutral, byState } = events[ball][event];
      const mean: ValueRow = { ball, event, state: null, runs: neutral };
      return [mean, ...STATES.map((state) => ({ ball, event, state, runs: byState[state] }))];
    }),
  );
  for (const state of STATES)
    if (!Number.isNaN(turn[state])) rows.push({ ball: 'ground', event: 'second out', state, runs: -turn[state] });
  return new TableWriter(rows)
    .text('ball', ({ ball }) => ball)
    .text('event', ({ event }) => event)
    .text('state', ({ state }) => (state === null ? null : baseOutName(state)))
    .text('runners', ({ state }) => (state === null ? null : runnersName(state)))
    .integer('outs', ({ state }) => (state === null ? Number.NaN : state >> 3))
    .number('runs', ({ runs }) => runs)
    .table();
}
