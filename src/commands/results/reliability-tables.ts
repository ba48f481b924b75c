import type { ColumnTable } from '../../book/store.ts';
import type { Repeats } from '../ratings/rating-tasks.ts';
import { TableWriter } from './columns.ts';

/** Tables `reliability` and `half_signal`. */
export function reliabilityTables(repeats: Repeats): { reliability: ColumnTable; half_signal: ColumnTable } {
  const reliability = new TableWriter(repeats.reliability)
    .text('kind', ({ kind }) => kind)
    .integer('position', ({ position }) => position)
    .text('method', ({ method }) => method)
    .number('min_chances', ({ minChances }) => minChances)
    .integer('n', ({ n }) => n)
    .number('r', ({ r }) => r)
    .number('lo95', ({ lo95 }) => lo95)
    .number('hi95', ({ hi95 }) => hi95)
    .number('spearman_brown', ({ spearmanBrown }) => spearmanBrown)
    .integer('men', ({ men: different }) => different)
    .table();
  // No end to an interval is an empty cell: not every reader knows infinity.
  const finite = (value: number) => (Number.isFinite(value) ? value : Number.NaN);
  const halfSignal = new TableWriter(repeats.halfSignal)
    .text('kind', ({ kind }) => kind)
    .integer('position', ({ position }) => position)
    .integer('n', ({ n }) => n)
    .integer('men', ({ men: different }) => different)
    .number('signal_sd_per_100', ({ signalSd }) => signalSd)
    .number('noise_sd_at_100', ({ noiseSdAt100 }) => noiseSdAt100)
    .number('half_signal_chances', ({ chances }) => finite(chances))
    .number('half_signal_chances_lo95', ({ lo95 }) => finite(lo95))
    .number('half_signal_chances_hi95', ({ hi95 }) => finite(hi95))
    .table();
  return { reliability, half_signal: halfSignal };
}
