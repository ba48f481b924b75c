/** Pairs (home, away) of one day: the circle method, every club meets every other, home and away by turns. */
export function dayPairs(clubs: number, day: number): [number, number][] {
  const ring = clubs % 2 === 0 ? clubs : clubs + 1;
  const round = day % (ring - 1);
  const lap = Math.floor(day / (ring - 1));
  const pairs: [number, number][] = [];
  for (let k = 0; k < ring / 2; k += 1) {
    const a = k === 0 ? ring - 1 : (round + k) % (ring - 1);
    const b = (round - k + ring - 1) % (ring - 1);
    if (a >= clubs || b >= clubs) continue;
    pairs.push((lap + k) % 2 === 0 ? [a, b] : [b, a]);
  }
  return pairs;
}
