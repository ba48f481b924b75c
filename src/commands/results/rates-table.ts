import { type FieldTime, fieldTimeKey } from '../../book/read-field-time.ts';
import type { ColumnTable } from '../../book/store.ts';
import { GRADES } from '../../chances/grades.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import { type FielderTotals, netOf } from '../../ledger/season-totals.ts';
import { RATED_KINDS } from '../../ratings/game-cells.ts';
import type { Rate } from '../../ratings/rates.ts';
import { TableWriter } from './columns.ts';
import type { GameSums } from './game-sums.ts';
import { addShares } from './grade-shares.ts';
import { personId } from './person-id.ts';
import { seasonKey } from './row-keys.ts';

const OUTS_AN_INNING = 3;
/** Kinds with a rate by innings; those of kind `whole` are in the net only. */
const INNING_KINDS = ENTRY_KINDS.slice(0, -1);

/** One row a season, defender, position and club: outs per 100 chances, and runs per 1,000 innings where field_time has them. */
export function ratesTable(
  totals: readonly FielderTotals[],
  sums: GameSums,
  nameOf: ReadonlyMap<string, string>,
  fieldTime: FieldTime,
): ColumnTable {
  const { table } = sums;
  const rows = totals.map((total) => {
    const id = personId(table, total.fielder);
    const outs =
      id === null ? undefined : fieldTime.get(fieldTimeKey(total.season, table.teams[total.team], id, total.position));
    const key = seasonKey(total);
    return {
      total,
      id,
      innings: outs ? outs / OUTS_AN_INNING : Number.NaN,
      rates: sums.rates.get(key)!,
      errors: sums.errors.season.get(key),
    };
  });
  type Row = (typeof rows)[number];
  const writer = new TableWriter(rows)
    .integer('season', ({ total }) => total.season)
    .text('fielder_id', ({ id }) => id)
    .text('name', ({ id }) => nameOf.get(id ?? '') ?? null)
    .integer('position', ({ total }) => total.position)
    .text('team', ({ total }) => table.teams[total.team])
    .integer('plays', ({ total }) => total.plays)
    .number('chances', ({ total }) => total.chances)
    .number('innings', ({ innings }) => innings);
  const addRate = (name: string, rate: (row: Row) => Rate) => {
    writer.number(name, (row) => rate(row).value).number(`${name}_se`, (row) => rate(row).se);
  };
  for (const [k, kind] of RATED_KINDS.entries()) addRate(`${kind}_outs_per_100`, ({ rates }) => rates.kinds[k]);
  addRate('net_outs_per_100', ({ rates }) => rates.net);
  const perThousand = (sum: number, error: number | undefined, innings: number): Rate => ({
    value: (1000 * sum) / innings,
    se: (1000 * (error ?? Number.NaN)) / innings,
  });
  for (const [k, kind] of INNING_KINDS.entries()) {
    addRate(`${kind}_runs_per_1000_innings`, ({ total, errors, innings }) =>
      perThousand(total.runs[k], errors?.runs[k], innings),
    );
  }
  addRate('net_runs_per_1000_innings', ({ total, errors, innings }) =>
    perThousand(netOf(total.runs), errors?.net, innings),
  );
  addShares(writer, GRADES, ({ total }) => total.gradePlays);
  return writer.table();
}
