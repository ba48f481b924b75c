import { ALIGNMENT_SETTINGS } from '../diamond/alignment-names.ts';
import { BASE_SPOTS } from '../diamond/field.ts';
import { outsideArcFt } from '../diamond/infield-boundary.ts';
import { TWO_A_SIDE } from '../diamond/playing-rules.ts';
import { type ConvexRegion, isInside } from './convex-region.ts';

export const PLAN_RULES = ['two-a-side', 'open'] as const;
export type PlanRule = (typeof PLAN_RULES)[number];

/** How deep the infield is told to play. */
export const PLAN_DEPTHS = ['usual', 'double-play', 'in'] as const;
export type PlanDepth = (typeof PLAN_DEPTHS)[number];

/** What bounds the spots of one plan. */
export interface SpotLimits {
  readonly rule: PlanRule;
  readonly depth: PlanDepth;
  /** The first baseman holds a runner on first. */
  readonly hold: boolean;
  /** Where defenders of a position were seen, by position; null lets him stand anywhere in his part of the field. */
  readonly seen: (position: number) => ConvexRegion | null;
  readonly batterToFirstS: number;
}

/** A man who holds the runner keeps within this of the bag, feet: two strides (common practice, no source). */
export const HOLD_FT = 8;

/**
 * Whoever takes the throw at first has to be there this long before the batter, and covers this many feet a second once he is
 * under way; he gets under way after so long. Usual values, from memory.
 */
const AT_BAG_BEFORE_S = 1;
const COVER_FT_S = 22;
const COVER_READ_S = 0.6;

/** How far from first base a man may start who has to be there in time, feet. */
export function coverFt(batterToFirstS: number): number {
  return Math.max((batterToFirstS - AT_BAG_BEFORE_S - COVER_READ_S) * COVER_FT_S, HOLD_FT);
}

/** Whether a man who starts there is at first base in time for a throw. */
export function coversFirst(xFt: number, yFt: number, batterToFirstS: number): boolean {
  return toBaseFt(1, xFt, yFt) <= coverFt(batterToFirstS);
}

/** Where men may stand when they need not keep to where others were seen: distances from home, feet. */
const INFIELD_FT = { least: 60, most: 185 } as const;
const OUTFIELD_FT = { least: 185, most: 380 } as const;
const FIRST_BASE = 3;
const FIRST_OUTFIELD = 7;
/** Under the rule these stand right of second base, the others of the infield left: sides may not be changed within an inning. */
const RIGHT_SIDE: readonly number[] = [3, 4];
const MIDDLE: readonly number[] = [4, 6];
/** Starts are told to a tenth of a foot, and have to be legal as told. */
const ROOM_FT = 0.1;

/** Whether a man of a position may start at a spot, as far as that depends on him alone. */
export function isAllowed(limits: SpotLimits, position: number, xFt: number, yFt: number): boolean {
  // Everybody but the catcher starts in fair ground (Official Baseball Rules 5.02(c); from memory).
  if (Math.abs(xFt) > yFt) return false;
  const region = limits.seen(position);
  if (region === null ? !isInHisPart(position, xFt, yFt) : !isInside(region, xFt, yFt)) return false;
  if (position >= FIRST_OUTFIELD) return true;
  if (limits.hold && position === FIRST_BASE && toBaseFt(1, xFt, yFt) > HOLD_FT) return false;
  if (limits.rule === 'two-a-side' && !isOnHisSide(position, xFt, yFt)) return false;
  return isAtDepth(limits, position, xFt, yFt);
}

function isInHisPart(position: number, xFt: number, yFt: number): boolean {
  const fromHome = Math.hypot(xFt, yFt);
  const part = position >= FIRST_OUTFIELD ? OUTFIELD_FT : INFIELD_FT;
  return fromHome >= part.least && fromHome <= part.most;
}

/** Both feet inside the outer boundary of the infield and wholly on the position's side of second base (playing-rules.ts). */
function isOnHisSide(position: number, xFt: number, yFt: number): boolean {
  const { stanceHalfWidthFt, clearOfLineFt, boundary } = TWO_A_SIDE;
  const fromHome = Math.hypot(xFt, yFt);
  const acrossX = (stanceHalfWidthFt * yFt) / fromHome;
  const acrossY = (stanceHalfWidthFt * xFt) / fromHome;
  const out = Math.max(
    outsideArcFt(xFt + acrossX, yFt - acrossY, boundary),
    outsideArcFt(xFt - acrossX, yFt + acrossY, boundary),
  );
  const toward = RIGHT_SIDE.includes(position) ? xFt : -xFt;
  return out <= -ROOM_FT && toward > 0 && toward - Math.abs(acrossX) >= clearOfLineFt + ROOM_FT;
}

function isAtDepth({ depth, hold }: SpotLimits, position: number, xFt: number, yFt: number): boolean {
  if (depth === 'usual') return true;
  const fromHome = Math.hypot(xFt, yFt);
  const settings = ALIGNMENT_SETTINGS;
  if (depth === 'double-play') {
    if (!MIDDLE.includes(position)) return true;
    return fromHome <= settings.doublePlayDepthFt && toBaseFt(2, xFt, yFt) <= settings.doublePlayFromSecondFt;
  }
  if (MIDDLE.includes(position)) return fromHome <= settings.middleInFt;
  return (hold && position === FIRST_BASE) || fromHome <= settings.cornerInFt;
}

function toBaseFt(base: number, xFt: number, yFt: number): number {
  return Math.hypot(xFt - BASE_SPOTS[base].x, yFt - BASE_SPOTS[base].y);
}

/** Spots of a position on a grid, x and y in turn: as fine as `finestFt`, coarser where there would be more than `most`. */
export function spotGrid(limits: SpotLimits, position: number, finestFt: number, most: number): Float64Array {
  const [left, right, near, far] = bounds(limits.seen(position), position);
  for (let step = finestFt; ; step *= 1.25) {
    if (((right - left) / step + 1) * ((far - near) / step + 1) > 60 * most) continue;
    const spots: number[] = [];
    for (let x = left; x <= right; x += step)
      for (let y = near; y <= far; y += step) if (isAllowed(limits, position, x, y)) spots.push(x, y);
    if (spots.length / 2 <= most) return Float64Array.from(spots);
  }
}

function bounds(region: ConvexRegion | null, position: number): readonly [number, number, number, number] {
  if (region === null) {
    const { most } = position >= FIRST_OUTFIELD ? OUTFIELD_FT : INFIELD_FT;
    return [-most / Math.SQRT2, most / Math.SQRT2, 40, most];
  }
  const xs = region.filter((_, k) => k % 2 === 0);
  const ys = region.filter((_, k) => k % 2 === 1);
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

/** A finer square of spots around one, those that are allowed; the middle is the first. */
export function spotsAround(
  limits: SpotLimits,
  position: number,
  xFt: number,
  yFt: number,
  stepFt: number,
  steps: number,
): Float64Array {
  const spots = [xFt, yFt];
  for (let i = -steps; i <= steps; i += 1) {
    for (let j = -steps; j <= steps; j += 1) {
      const [x, y] = [xFt + i * stepFt, yFt + j * stepFt];
      if ((i !== 0 || j !== 0) && isAllowed(limits, position, x, y)) spots.push(x, y);
    }
  }
  return Float64Array.from(spots);
}
