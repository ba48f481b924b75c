import { INFIELD_ARC_FT, PITCHERS_PLATE_FT } from '../../diamond/field.ts';
import type { Depths } from './usual-starts.ts';

/** Half a ready stance, and the eye's error in keeping one's heels off the grass. */
const INSIDE_ARC_FT = 1.7;
/** Nobody works with his heels on the grass: from here on he is let wander by a few feet of chance. */
const ROOM_TO_WANDER_FT = 4;
/** From the line through second base to a man's middle: his near foot is clear of the bag. */
const BESIDE_SECOND_FT = 3;

const LEFT_SHAPE = { 3: [36.5, 118], 4: [24, 144], 6: [-2.2, 150], 5: [-22, 132] } as const;
const RIGHT_SHAPE = { 5: [-36, 118], 6: [-23, 145], 4: [2.2, 150], 3: [29, 114] } as const;

/** As far to the batter's pull side as two a side allows: the man from the far side stands hard by second base. */
export function shadeToTheLimit(batsLeft: boolean, out: Depths): void {
  for (const [position, [bearing, depth]] of Object.entries(batsLeft ? LEFT_SHAPE : RIGHT_SHAPE)) {
    out.bearingDeg[Number(position)] = bearing;
    out.depthFt[Number(position)] = depth;
  }
}

/**
 * Moves the infielders of one pitch, in place, to where the two-a-side rule lets them stand: inside the arc of the outfield
 * grass, first and second baseman on one side of second base, third baseman and shortstop on the other. `settled` after
 * the last step that a man takes before the pitch; before it he is kept farther in.
 */
export function keepTwoASide(starts: Float64Array, settled: boolean): void {
  const radius = INFIELD_ARC_FT - INSIDE_ARC_FT - (settled ? 0 : ROOM_TO_WANDER_FT);
  for (let p = 3; p <= 6; p += 1) {
    const side = p <= 4 ? 1 : -1;
    const x = side * Math.max(side * starts[2 * p - 2]!, BESIDE_SECOND_FT);
    const y = starts[2 * p - 1]!;
    const kept = Math.min(1, radius / Math.hypot(x, y - PITCHERS_PLATE_FT));
    starts[2 * p - 2] = side * Math.max(side * x * kept, BESIDE_SECOND_FT);
    starts[2 * p - 1] = PITCHERS_PLATE_FT + (y - PITCHERS_PLATE_FT) * kept;
  }
}
