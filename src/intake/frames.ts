import { UNITS, type UnitName } from './units.ts';

const HALF = Math.SQRT1_2;

/** Directions that an axis of a user's frame may point to, as unit vectors of the project's frame (data-contract.md). */
export const DIRECTIONS = {
  first_base: [1, 0],
  third_base: [-1, 0],
  centre_field: [0, 1],
  center_field: [0, 1],
  second_base: [0, 1],
  home: [0, -1],
  first_base_line: [HALF, HALF],
  third_base_line: [-HALF, HALF],
} as const satisfies Record<string, readonly [number, number]>;

export type Direction = keyof typeof DIRECTIONS;
export const DIRECTION_NAMES = Object.keys(DIRECTIONS) as Direction[];

export interface FrameSpec {
  readonly unit: UnitName;
  /** Where the user's origin lies in the project's frame, feet. */
  readonly origin_ft: readonly [number, number];
  readonly x_toward: Direction;
  readonly y_toward: Direction;
}

/** A user's frame as numbers: spot_ft = origin + x * (xx, xy) + y * (yx, yy). */
export interface Frame {
  readonly originX: number;
  readonly originY: number;
  readonly xx: number;
  readonly xy: number;
  readonly yx: number;
  readonly yy: number;
}

/** The project's own frame. */
export const OWN_FRAME: Frame = { originX: 0, originY: 0, xx: 1, xy: 0, yx: 0, yy: 1 };

/** True when the two axes stand at a right angle, which a frame must have. */
export function axesAreSquare(spec: Pick<FrameSpec, 'x_toward' | 'y_toward'>): boolean {
  const [ax, ay] = DIRECTIONS[spec.x_toward];
  const [bx, by] = DIRECTIONS[spec.y_toward];
  return Math.abs(ax * bx + ay * by) < 1e-12;
}

export function frameOf(spec: FrameSpec): Frame {
  const factor = UNITS[spec.unit].factor;
  const [ax, ay] = DIRECTIONS[spec.x_toward];
  const [bx, by] = DIRECTIONS[spec.y_toward];
  const [originX, originY] = spec.origin_ft;
  return { originX, originY, xx: ax * factor, xy: ay * factor, yx: bx * factor, yy: by * factor };
}

/** A spot of the user's frame in the project's frame, feet. */
export function toField(frame: Frame, x: number, y: number): { xFt: number; yFt: number } {
  return {
    xFt: frame.originX + x * frame.xx + y * frame.yx,
    yFt: frame.originY + x * frame.xy + y * frame.yy,
  };
}

/** Inverse of `toField`. */
export function fromField(frame: Frame, xFt: number, yFt: number): { x: number; y: number } {
  const determinant = frame.xx * frame.yy - frame.xy * frame.yx;
  const dx = xFt - frame.originX;
  const dy = yFt - frame.originY;
  return {
    x: (dx * frame.yy - dy * frame.yx) / determinant,
    y: (dy * frame.xx - dx * frame.xy) / determinant,
  };
}

/** Adds `part * factor` to an SQL sum, leaving out what is zero: most frames are not turned. */
function addTerm(terms: string[], part: string, factor: number): void {
  if (factor === 0) return;
  terms.push(factor === 1 ? part : `${part} * (${factor}::DOUBLE)`);
}

/** `toField` as two SQL expressions of two SQL number expressions. */
export function frameSql(frame: Frame, x: string, y: string): { xFt: string; yFt: string } {
  const sum = (origin: number, alongX: number, alongY: number) => {
    const terms: string[] = [];
    addTerm(terms, x, alongX);
    addTerm(terms, y, alongY);
    if (origin !== 0) terms.push(`(${origin}::DOUBLE)`);
    return `(${terms.join(' + ')})`;
  };
  return { xFt: sum(frame.originX, frame.xx, frame.yx), yFt: sum(frame.originY, frame.xy, frame.yy) };
}
