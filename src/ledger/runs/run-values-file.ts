import type { BallClass, BaseRunning } from './base-running.ts';
import type { RunTable } from './run-table.ts';
import { type RunValues, valuesOf } from './run-values.ts';
import type { TurnShares } from './unseen-turns.ts';

type Numbers = readonly (number | null)[];
type ColumnName = 'runs' | 'standardError' | 'innings' | 'plays' | 'meanAtPlays';

/** Run values as plain JSON data: the table and the base running, from which the values follow. */
export interface RunValuesFile {
  readonly table: Readonly<Record<ColumnName, Numbers>> & {
    readonly source: RunTable['source'];
    readonly reason: string;
    readonly turns: TurnShares;
  };
  readonly running: Readonly<Record<BallClass, BaseRunning>>;
}

export function toRunValuesFile({ table, running }: RunValues): RunValuesFile {
  const { source, reason, turns } = table;
  // JSON has no NaN.
  const numbers = (name: ColumnName) => Array.from(table[name], (value) => (Number.isNaN(value) ? null : value));
  return {
    table: {
      source,
      reason,
      turns,
      runs: numbers('runs'),
      standardError: numbers('standardError'),
      innings: numbers('innings'),
      plays: numbers('plays'),
      meanAtPlays: numbers('meanAtPlays'),
    },
    running,
  };
}

export function fromRunValuesFile({ table, running }: RunValuesFile): RunValues {
  const { source, reason, turns } = table;
  const column = (name: ColumnName) => Float64Array.from(table[name], (value) => value ?? Number.NaN);
  return valuesOf(
    {
      source,
      reason,
      turns,
      runs: column('runs'),
      standardError: column('standardError'),
      innings: column('innings'),
      plays: column('plays'),
      meanAtPlays: column('meanAtPlays'),
    },
    running,
  );
}
