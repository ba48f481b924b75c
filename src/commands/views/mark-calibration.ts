import type { Store } from '../../book/store.ts';
import { type CalibrationGroup, calibrationByGroup, equalGroups } from '../../numeric/calibration.ts';

/** Tables that markCalibration reads. */
export const MARK_CALIBRATION_TABLES = ['marks'] as const;

/** A mark of one kind of ball beside what happened, in groups of like chances from small to large. */
export interface MarkCalibration {
  readonly ballKind: string;
  readonly mark: 'opening' | 'set' | 'gathered';
  readonly plays: number;
  readonly groups: readonly CalibrationGroup[];
}

const MARKS = ['opening', 'set', 'gathered'] as const;
const GROUPS = 10;

/**
 * How often plays of grade `full` ended with an out, by what their marks said: on the plays that the models were fitted to,
 * so it shows a model that is off somewhere, and not how well it does on new games (that is `trust`).
 */
export async function markCalibration(store: Store): Promise<MarkCalibration[]> {
  const { columns } = await store.query(
    `SELECT ball_kind, opening, "set", gathered, closed FROM marks WHERE grade = 'full' AND gathered IS NOT NULL`,
  );
  const [kinds, ...numbers] = columns.map(({ values }) => values);
  const [opening, set, gathered, closed] = numbers as Float64Array[];
  const rowsOfKind = new Map<string, number[]>();
  (kinds as readonly string[]).forEach((kind, row) => {
    const rows = rowsOfKind.get(kind);
    if (rows === undefined) rowsOfKind.set(kind, [row]);
    else rows.push(row);
  });
  const marks = { opening: opening!, set: set!, gathered: gathered! };
  return [...rowsOfKind].flatMap(([ballKind, rows]) => {
    const outcomes = Float64Array.from(rows, (row) => closed![row]!);
    return MARKS.map((mark) => {
      const forecasts = Float64Array.from(rows, (row) => marks[mark][row]!);
      const groups = calibrationByGroup(forecasts, outcomes, equalGroups(forecasts, GROUPS), GROUPS);
      return { ballKind, mark, plays: rows.length, groups: groups.filter(({ n }) => n > 0) };
    });
  });
}
