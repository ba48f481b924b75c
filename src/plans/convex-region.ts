/** A convex polygon by its corners, x and y in turn, anticlockwise. */
export type ConvexRegion = Float64Array;

/** Convex hull of points given as x and y in turn (monotone chain; Andrew 1979). Fewer than three points give those points. */
export function convexHull(points: Float64Array): ConvexRegion {
  const order = Array.from({ length: points.length / 2 }, (_, k) => k);
  order.sort((a, b) => points[2 * a] - points[2 * b] || points[2 * a + 1] - points[2 * b + 1]);
  const chain = (list: readonly number[]) => {
    const kept: number[] = [];
    for (const k of list) {
      while (kept.length > 1 && turns(points, kept[kept.length - 2], kept[kept.length - 1], k) <= 0) kept.pop();
      kept.push(k);
    }
    return kept;
  };
  const corners = [...chain(order).slice(0, -1), ...chain(order.reverse()).slice(0, -1)];
  return Float64Array.from((corners.length > 0 ? corners : order).flatMap((k) => [points[2 * k], points[2 * k + 1]]));
}

/** Twice the signed area of a triangle of points: positive when a, b, c turn left. */
function turns(points: Float64Array, a: number, b: number, c: number): number {
  const [ax, ay] = [points[2 * a], points[2 * a + 1]];
  return (points[2 * b] - ax) * (points[2 * c + 1] - ay) - (points[2 * b + 1] - ay) * (points[2 * c] - ax);
}

export function isInside(region: ConvexRegion, x: number, y: number): boolean {
  for (let k = 0; k < region.length; k += 2) {
    const next = (k + 2) % region.length;
    const across =
      (region[next] - region[k]) * (y - region[k + 1]) - (region[next + 1] - region[k + 1]) * (x - region[k]);
    if (across < -1e-9) return false;
  }
  return region.length > 4;
}

/** Bin side for the density of spots, feet: about a man's scatter from pitch to pitch. */
const BIN_FT = 6;

/** Hull of the points without the given share of them that lie where the fewest others do. */
export function trimmedHull(points: Float64Array, leftOut: number): ConvexRegion {
  const bins = new Map<string, number>();
  const binOf = (k: number) => `${Math.round(points[2 * k] / BIN_FT)},${Math.round(points[2 * k + 1] / BIN_FT)}`;
  const count = points.length / 2;
  for (let k = 0; k < count; k += 1) bins.set(binOf(k), (bins.get(binOf(k)) ?? 0) + 1);
  const density = Float64Array.from({ length: count }, (_, k) => bins.get(binOf(k))!);
  const order = Array.from(density.keys()).sort((a, b) => density[a] - density[b] || a - b);
  const kept = order.slice(Math.floor(leftOut * count));
  return convexHull(Float64Array.from(kept.flatMap((k) => [points[2 * k], points[2 * k + 1]])));
}
