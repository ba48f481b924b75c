import type { ColumnTable } from '../../book/store.ts';
import { findHalfSignal } from '../../ratings/half-signal.ts';
import { listManSeasons } from '../../ratings/man-seasons.ts';
import { measureReliability } from '../../ratings/reliability.ts';
import { TableWriter } from './columns.ts';
import type { GameSums } from './game-sums.ts';

/** Tables `reliability` and `half_signal`. */
export function reliabilityTables({ men, table }: GameSums): { reliability: ColumnTable; half_signal: ColumnTable } {
  const seasons = listManSeasons(men, table);
  const reliability = new TableWriter(measureReliability(seasons))
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
  const halfSignal = new TableWriter(findHalfSignal(seasons))
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
