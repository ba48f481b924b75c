import { radians } from '../diamond/bearing.ts';
import { MOVABLE_INFIELD } from '../diamond/play-codes.ts';

/** Turns of the whole defence about home with which a search begins, degrees; + toward first. */
const TURNS_DEG = [-10, -5, 5, 10];
/** An overshift: the middle men and the corner of the far side go over by so much. */
const OVER_DEG = 17;

/** Placements with which a search begins: even, the club's own, shaded either way, overshifted either way. */
export function beginnings(even: Float64Array, own: Float64Array): Float64Array[] {
  const shaded = TURNS_DEG.map((degrees) => turned(even, degrees, [3, 4, 5, 6, 7, 8, 9]));
  return [even, own, ...shaded, turned(even, OVER_DEG, [4, 5, 6]), turned(even, -OVER_DEG, [3, 4, 6])];
}

function turned(starts: Float64Array, degrees: number, positions: readonly number[]): Float64Array {
  const out = starts.slice();
  for (const position of positions) {
    const [x, y] = [starts[2 * position - 2], starts[2 * position - 1]];
    // A corner man does not leave his line behind him: outfielders turn by half as much.
    const angle = radians((MOVABLE_INFIELD as readonly number[]).includes(position) ? degrees : degrees / 2);
    out[2 * position - 2] = x * Math.cos(angle) + y * Math.sin(angle);
    out[2 * position - 1] = y * Math.cos(angle) - x * Math.sin(angle);
  }
  return out;
}
