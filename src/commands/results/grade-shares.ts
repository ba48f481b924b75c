import { GRADES, type Grade } from '../../chances/grades.ts';
import type { TableWriter } from './columns.ts';

/** Share of the plays that are of a grade, 0 to 1; NaN without plays. `gradePlays` counts them in the order of GRADES. */
export function shareOf(gradePlays: Int32Array, grade: number): number {
  return gradePlays[grade] / gradePlays.reduce((sum, plays) => sum + plays, 0);
}

/** Columns `share_<grade>`. */
export function addShares<Row>(
  writer: TableWriter<Row>,
  grades: readonly Grade[],
  gradePlays: (row: Row) => Int32Array,
): TableWriter<Row> {
  for (const grade of grades) {
    writer.number(`share_${grade}`, (row) => shareOf(gradePlays(row), GRADES.indexOf(grade)));
  }
  return writer;
}
