/** What part of the field a drawing shows, in feet of the project's frame. */
export interface FieldWindow {
  readonly left: number;
  readonly right: number;
  /** Nearest to and farthest from the backstop. */
  readonly low: number;
  readonly high: number;
}

export type Zoom = 'infield' | 'whole';

/** The infield with room for a man in the hole on the grass; the whole with room for a man at the wall. */
export const WINDOWS: Readonly<Record<Zoom, FieldWindow>> = {
  infield: { left: -132, right: 132, low: -16, high: 190 },
  whole: { left: -268, right: 268, low: -22, high: 396 },
};

/** The drawing's y runs down; everything else is as in the frame, feet. */
export function viewBoxOf({ left, right, low, high }: FieldWindow): string {
  return `${left} ${-high} ${right - left} ${high - low}`;
}

/** Tenths of a foot are an inch or so: as fine as anybody can see, and a drawing that lasts. */
export function round(value: number): number {
  const rounded = Math.round(value * 10) / 10;
  return rounded === 0 ? 0 : rounded;
}

/** A point of the frame as text for a path. */
export function pathPoint(xFt: number, yFt: number): string {
  return `${round(xFt)} ${round(-yFt)}`;
}

/** A polygon of the frame as a closed path; `points` are x and y in turn. */
export function closedPath(points: ArrayLike<number>): string {
  let path = '';
  for (let k = 0; k < points.length; k += 2) path += `${k === 0 ? 'M' : 'L'}${pathPoint(points[k]!, points[k + 1]!)}`;
  return path === '' ? '' : `${path}Z`;
}
