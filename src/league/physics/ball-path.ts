/** Length of one time step of everything that moves, seconds. */
export const STEP_S = 0.01;

const MOST_STEPS = 1200;

/** How a ball leaves the bat; the last two are the small luck of its own bounces. */
export interface Launch {
  exitSpeedMph: number;
  launchAngleDeg: number;
  bearingDeg: number;
  /** Code of SURFACES. */
  surface: number;
  /** Turn of its way at the first contact with the ground, degrees. */
  kickDeg: number;
  /** Factor on the height of its hops, about 1. */
  hop: number;
}

/**
 * Where a ball is at every step: `x`, `y`, `z` in feet, `speed` in ft/s, step i at `startS + i * STEP_S` seconds after
 * contact. `landing` is the first step on the ground (0 when it starts there), `steps` the number of steps.
 * The arrays belong to the path and are written again by the next trace.
 */
export interface BallPath {
  startS: number;
  steps: number;
  landing: number;
  /** True when the ball went over the fence in the air. */
  gone: boolean;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly speed: Float64Array;
}

export function allocateBallPath(): BallPath {
  const column = () => new Float64Array(MOST_STEPS);
  return { startS: 0, steps: 0, landing: 0, gone: false, x: column(), y: column(), z: column(), speed: column() };
}
