import { BASE_PATH_FT, BASE_SPOTS, type Spot } from '../../diamond/field.ts';

/**
 * Where a man is to stand, as he can pace it off: from his even spot, facing home plate, and from a bag. Words of the trade, whole
 * feet. On the field a start is right to a yard at best.
 */

/** What a step toward the first-base side and one toward the third-base side lead to, by position. */
const SIDEWAYS: Readonly<Record<number, readonly [firstSide: string, thirdSide: string]>> = {
  1: ['toward first', 'toward third'],
  2: ['toward first', 'toward third'],
  3: ['toward the line', 'toward the hole'],
  4: ['toward the hole', 'up the middle'],
  5: ['toward the hole', 'toward the line'],
  6: ['up the middle', 'toward the hole'],
  7: ['toward centre', 'toward the line'],
  8: ['toward right', 'toward left'],
  9: ['toward the line', 'toward centre'],
};

/** A move as a man makes it who faces home plate from where he begins. */
export interface Steps {
  /** Feet toward the first-base side; negative toward the third-base side. */
  readonly acrossFt: number;
  /** Feet away from home plate; negative in toward it. */
  readonly backFt: number;
}

/** The move between two spots, along and across the line from home plate to the first of them. */
export function stepsBetween(from: Spot, to: Spot): Steps {
  const distance = Math.hypot(from.x, from.y);
  const [sin, cos] = distance > 0 ? [from.x / distance, from.y / distance] : [0, 1];
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  return { acrossFt: dx * cos - dy * sin, backFt: dx * sin + dy * cos };
}

/** "12 ft toward the hole, 4 ft in" from the even spot, or "on your even spot" when both are under a foot. */
export function paceFromEvenSpot(position: number, even: Spot, start: Spot): string {
  const { acrossFt, backFt } = stepsBetween(even, start);
  const [firstSide, thirdSide] = SIDEWAYS[position]!;
  const parts: string[] = [];
  if (isFoot(acrossFt)) parts.push(`${feet(acrossFt)} ${acrossFt > 0 ? firstSide : thirdSide}`);
  if (isFoot(backFt)) parts.push(`${feet(backFt)} ${backFt > 0 ? 'back' : 'in'}`);
  return parts.length === 0 ? 'on your even spot' : parts.join(', ');
}

/** A start seen from a base path: how far along it from which bag, and how far behind it. */
export interface FromBag {
  /** 1 to 3: the nearer bag of the base path between second and the corner on that side. */
  readonly bag: number;
  /** Feet from the bag along the path; from first or third that is the distance from the foul line, negative in foul ground. */
  readonly alongFt: number;
  /** Feet behind the path; negative in front of it. */
  readonly behindFt: number;
}

export function measureFromBag({ x, y }: Spot): FromBag {
  const side = x < 0 ? -1 : 1;
  const corner = BASE_SPOTS[side < 0 ? 3 : 1]!;
  const dx = x - corner.x;
  const dy = y - corner.y;
  const fromCornerFt = (dy - side * dx) / Math.SQRT2;
  const behindFt = (dy + side * dx) / Math.SQRT2;
  return fromCornerFt < BASE_PATH_FT / 2
    ? { bag: side < 0 ? 3 : 1, alongFt: fromCornerFt, behindFt }
    : { bag: 2, alongFt: BASE_PATH_FT - fromCornerFt, behindFt };
}

/** "31 ft from second toward third, 22 ft deep" (behind the base path), "14 ft off the line, 8 ft behind third"; an outfielder's is from home plate and a line. */
export function paceFromBag(position: number, start: Spot): string {
  if (position >= 7) return paceInOutfield(start);
  const { bag, alongFt, behindFt } = measureFromBag(start);
  if (bag === 2) {
    const toward = alongFt < 0 === start.x < 0 ? 'first' : 'third';
    const depth = behindFt < 0 ? 'in front of the base path' : 'deep';
    const far = isFoot(behindFt) ? `${feet(behindFt)} ${depth}` : 'on the base path';
    return `${feet(alongFt)} from second toward ${toward}, ${far}`;
  }
  const corner = bag === 1 ? 'first' : 'third';
  const off = isFoot(alongFt) ? `${feet(alongFt)} ${alongFt < 0 ? 'outside' : 'off'} the line` : 'on the line';
  const far = isFoot(behindFt) ? `${feet(behindFt)} ${behindFt < 0 ? 'in front of' : 'behind'}` : 'level with';
  return `${off}, ${far} ${corner}`;
}

function paceInOutfield(start: Spot): string {
  const fromHomeFt = Math.hypot(start.x, start.y);
  const offLineFt = (start.y - Math.abs(start.x)) / Math.SQRT2;
  const aside = Math.abs(start.x);
  if (offLineFt < aside) return `${feet(fromHomeFt)} from home, ${feet(offLineFt)} off the line`;
  if (!isFoot(aside)) return `${feet(fromHomeFt)} from home, straight behind second`;
  return `${feet(fromHomeFt)} from home, ${feet(aside)} to the ${start.x < 0 ? 'left' : 'right'}-field side of second`;
}

const feet = (value: number) => `${Math.abs(value).toFixed(0)} ft`;
const isFoot = (value: number) => Number(Math.abs(value).toFixed(0)) >= 1;
