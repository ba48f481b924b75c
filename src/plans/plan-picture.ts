import { BASE_SPOTS, PITCHER_START } from '../diamond/field.ts';
import type { Plan } from './plan-types.ts';

/** Characters are about twice as high as they are wide. */
const COLUMNS = 65;
const FT_PER_LINE_TO_COLUMN = 2;
const INFIELD_FT = 185;
const OUTFIELD_FT = 345;
const OUTFIELD_FROM = 7;

/**
 * A plan as a drawing of characters, home at the bottom: planned starts as position numbers, even spots as `o`, the club's own
 * starts as `x`, bases as `#`. What is planned is never covered by the rest. Lines end with a line feed.
 */
export function planPicture(plan: Plan): string {
  const depthFt = plan.starts.some(({ position }) => position >= OUTFIELD_FROM) ? OUTFIELD_FT : INFIELD_FT;
  const widthFt = Math.SQRT2 * depthFt;
  const ftPerColumn = widthFt / (COLUMNS - 1);
  const ftPerLine = ftPerColumn * FT_PER_LINE_TO_COLUMN;
  const lines = Math.floor(depthFt / ftPerLine) + 1;
  const cells = Array.from({ length: lines }, () => new Array<string>(COLUMNS).fill(' '));
  const put = (xFt: number, yFt: number, mark: string) => {
    const line = lines - 1 - Math.round(yFt / ftPerLine);
    const column = Math.round((xFt + widthFt / 2) / ftPerColumn);
    if (cells[line]?.[column] !== undefined) cells[line][column] = mark;
  };
  for (let yFt = ftPerLine; yFt < widthFt / 2; yFt += ftPerLine) {
    put(-yFt, yFt, '\\');
    put(yFt, yFt, '/');
  }
  for (const { x, y } of BASE_SPOTS.slice(1)) put(x, y, '#');
  put(PITCHER_START.x, PITCHER_START.y, '1');
  for (const start of plan.starts) put(start.own_x_ft, start.own_y_ft, 'x');
  for (const start of plan.starts) put(start.even_x_ft, start.even_y_ft, 'o');
  for (const start of plan.starts) put(start.start_x_ft, start.start_y_ft, String(start.position));
  const drawn = cells.map((line) => line.join('').trimEnd());
  const first = drawn.findIndex((line) => line !== '');
  return `${drawn.slice(first).join('\n')}\n`;
}
