import { radians } from '../../diamond/bearing.ts';
import { CATCHER_START, PITCHER_START } from '../../diamond/field.ts';

/** Bearings (degrees) and depths (feet) by position, 1 to 9. */
export interface Depths {
  readonly bearingDeg: Float64Array;
  readonly depthFt: Float64Array;
}

export function allocateDepths(): Depths {
  return { bearingDeg: new Float64Array(10), depthFt: new Float64Array(10) };
}

/** Straight-up against a right-handed batter; against a left-handed one the infield turns toward first. */
const RIGHT_BEARINGS = [0, 0, 0, 31.5, 12, -33, -15.5, -27.5, -1.5, 25.5];
const LEFT_BEARINGS = [0, 0, 0, 33, 15.5, -31, -11, -25.5, 1.5, 27.5];
const DEPTHS_FT = [0, 0, 0, 119, 148, 118, 148, 292, 318, 290];

export function straightUp(batsLeft: boolean, out: Depths): void {
  out.bearingDeg.set(batsLeft ? LEFT_BEARINGS : RIGHT_BEARINGS);
  out.depthFt.set(DEPTHS_FT);
}

const LEFT_OVERSHIFT = { 3: [36.5, 118], 4: [25, 162], 6: [7, 150], 5: [-15, 140] } as const;
const RIGHT_OVERSHIFT = { 5: [-36, 118], 6: [-23, 156], 4: [-5, 150], 3: [31, 112] } as const;

/** Three infielders on the batter's pull side. */
export function overshift(batsLeft: boolean, out: Depths): void {
  const shape = batsLeft ? LEFT_OVERSHIFT : RIGHT_OVERSHIFT;
  for (const [position, [bearing, depth]] of Object.entries(shape)) {
    out.bearingDeg[Number(position)] = bearing;
    out.depthFt[Number(position)] = depth;
  }
}

/** Writes x1, y1 to x9, y9; pitcher and catcher start from their own places. */
export function toStarts(depths: Depths, starts: Float64Array): void {
  starts[0] = PITCHER_START.x;
  starts[1] = PITCHER_START.y;
  starts[2] = CATCHER_START.x;
  starts[3] = CATCHER_START.y;
  for (let p = 3; p <= 9; p += 1) {
    const bearing = radians(depths.bearingDeg[p]!);
    starts[2 * p - 2] = depths.depthFt[p]! * Math.sin(bearing);
    starts[2 * p - 1] = depths.depthFt[p]! * Math.cos(bearing);
  }
}
