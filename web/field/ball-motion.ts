/** A ball's way along its line against time, for drawing. Feet, seconds. */
export interface BallMotion {
  readonly sin: number;
  readonly cos: number;
  /** How far along its line the drawing follows it, and when it is there. */
  readonly endFt: number;
  readonly endS: number;
  /** The end is where it comes down. */
  readonly comesDown: boolean;
  /** Each half second before the end. */
  readonly ticks: readonly { readonly seconds: number; readonly x: number; readonly y: number }[];
  distanceAt(seconds: number): number;
}

const TICK_S = 0.5;
/** No tick nearer to the end than this share of its half second: its label would stand on what is drawn there. */
const NEAR_END_S = 0.12;
const SAMPLES = 120;

/** `secondsTo` tells when the ball is how far along; it grows with distance. */
export function traceMotion(
  sin: number,
  cos: number,
  endFt: number,
  comesDown: boolean,
  secondsTo: (distanceFt: number) => number,
): BallMotion {
  const endS = secondsTo(endFt);
  const times = Float64Array.from({ length: SAMPLES + 1 }, (_, k) => (k === 0 ? 0 : secondsTo((endFt * k) / SAMPLES)));
  const distanceAt = (seconds: number) => {
    if (seconds >= endS) return endFt;
    let k = 1;
    while (k < SAMPLES && times[k]! < seconds) k += 1;
    const [before, after] = [times[k - 1]!, times[k]!];
    const share = after > before ? Math.max(seconds - before, 0) / (after - before) : 0;
    return (endFt * (k - 1 + Math.min(share, 1))) / SAMPLES;
  };
  const ticks: { seconds: number; x: number; y: number }[] = [];
  for (let seconds = TICK_S; seconds < endS - NEAR_END_S; seconds += TICK_S) {
    const along = distanceAt(seconds);
    ticks.push({ seconds, x: along * sin, y: along * cos });
  }
  return { sin, cos, endFt, endS, comesDown, ticks, distanceAt };
}

/** Nobody is under way sooner than this after contact, seconds; a usual value, for drawing only. */
const FIRST_STEP_S = 0.35;

/** How much of his way from start to gather a man has run: none before his first step, evenly after it. */
export function shareRun(seconds: number, gatherS: number): number {
  const first = Math.min(FIRST_STEP_S, gatherS / 2);
  return Math.min(Math.max((seconds - first) / (gatherS - first), 0), 1);
}
