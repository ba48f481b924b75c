/** A man's area: from his start, the spots that he gets to with at least a given chance. */
export interface AreaEdge {
  readonly level: number;
  /** x and y of the edge's points, once round; empty when he has no such chance even where he stands. */
  readonly points: Float64Array;
}

const DIRECTIONS = 60;

/**
 * Walks out from a start in all directions until the chance falls under each level (docs/decisions/090-area-covered.md).
 * `chanceAt` is asked on steps of `stepFt` up to `farthestFt`; between two steps the edge is put where a straight line between their
 * chances meets the level.
 */
export function traceArea(
  chanceAt: (xFt: number, yFt: number) => number,
  startXFt: number,
  startYFt: number,
  levels: readonly number[],
  stepFt: number,
  farthestFt: number,
): AreaEdge[] {
  const own = chanceAt(startXFt, startYFt);
  const edges = levels.map((level) => ({ level, points: new Float64Array(own < level ? 0 : 2 * DIRECTIONS) }));
  for (let direction = 0; direction < DIRECTIONS; direction += 1) {
    const angle = (2 * Math.PI * direction) / DIRECTIONS;
    const [dx, dy] = [Math.sin(angle), Math.cos(angle)];
    const open = edges.filter(({ points }) => points.length > 0);
    let before = own;
    for (let out = stepFt; open.length > 0 && out <= farthestFt; out += stepFt) {
      const here = chanceAt(startXFt + out * dx, startYFt + out * dy);
      for (let e = open.length - 1; e >= 0; e -= 1) {
        const { level, points } = open[e];
        if (here >= level && out + stepFt <= farthestFt) continue;
        const edge = here >= level ? out : out - stepFt * ((level - here) / (before - here));
        points[2 * direction] = startXFt + edge * dx;
        points[2 * direction + 1] = startYFt + edge * dy;
        open.splice(e, 1);
      }
      before = here;
    }
  }
  return edges;
}
