/** What is known of a ball by its number. */
export interface BallFacts {
  readonly weight: (ball: number) => number;
  readonly bearingDeg: (ball: number) => number;
  /** 0 where it is not known. */
  readonly exitSpeedMph: (ball: number) => number;
}

/** How many speeds are drawn from one narrow range of bearings. */
const SPEEDS_IN_A_BLOCK = 8;

/**
 * Orders numbers of balls (in place) so that a systematic draw of about `drawn` of them is spread evenly over bearing and, within
 * narrow bearings, over speed: by bearing in blocks of equal weight, each block by speed, to and fro.
 */
export function orderToSpread(list: number[], drawn: number, { weight, bearingDeg, exitSpeedMph }: BallFacts): void {
  list.sort((a, b) => bearingDeg(a) - bearingDeg(b) || a - b);
  const blocks = Math.max(1, Math.round(drawn / SPEEDS_IN_A_BLOCK));
  const total = list.reduce((sum, ball) => sum + weight(ball), 0);
  const block = new Map<number, number>();
  let passed = 0;
  for (const ball of list) {
    passed += weight(ball);
    block.set(ball, Math.min(blocks - 1, Math.floor((passed / total) * blocks)));
  }
  list.sort((a, b) => {
    const [own, other] = [block.get(a)!, block.get(b)!];
    if (own !== other) return own - other;
    return (own % 2 === 0 ? 1 : -1) * (exitSpeedMph(a) - exitSpeedMph(b)) || a - b;
  });
}
