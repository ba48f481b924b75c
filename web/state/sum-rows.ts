import { HALF_80, numberOf, SUM_KINDS, sumOf } from './entry-sums.ts';
import type { Row } from './table/row-source.ts';

/** The rows of one man's season taken together, such as at two clubs: sums add, errors add in square. */
export function takeTogether(rows: readonly Row[]): Row {
  const total: Record<string, number | null> = {};
  const add = (column: string) => {
    total[column] = rows.reduce((sum, row) => sum + (numberOf(row, column) ?? 0), 0);
  };
  for (const kind of [...SUM_KINDS, 'net'] as const) {
    add(`${kind}_outs`);
    add(`${kind}_runs`);
    for (const unit of ['outs', 'runs']) {
      const column = `${kind}_${unit}_se`;
      const errors = rows.map((row) => numberOf(row, column));
      total[column] = errors.includes(null) ? null : Math.hypot(...errors.map(Number));
    }
  }
  add('plays');
  add('chances');
  return total;
}

/** A row's sums as steps of a staircase, and its net with an interval where one is known. */
export function stairsOf(row: Row) {
  const sums = SUM_KINDS.map((kind) => ({
    kind,
    who: '',
    outs: sumOf(row, kind, 'outs'),
    runs: sumOf(row, kind, 'runs'),
  }));
  const runs = sumOf(row, 'net', 'runs');
  const se = numberOf(row, 'net_runs_se');
  const interval = se === null ? {} : { interval: [runs - HALF_80 * se, runs + HALF_80 * se] as const };
  return { sums, net: { outs: sumOf(row, 'net', 'outs'), runs, ...interval } };
}
