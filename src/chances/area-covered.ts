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
  const rays = levels.map((level) => ({ level, out: new Float64Array(own < level ? 0 : DIRECTIONS) }));
  for (let direction = 0; direction < DIRECTIONS; direction += 1) {
    const [dx, dy] = wayOf(direction);
    const open = rays.filter(({ out }) => out.length > 0);
    let before = own;
    for (let far = stepFt; open.length > 0 && far <= farthestFt; far += stepFt) {
      const here = chanceAt(startXFt + far * dx, startYFt + far * dy);
      for (let e = open.length - 1; e >= 0; e -= 1) {
        const { level, out } = open[e];
        if (here >= level && far + stepFt <= farthestFt) continue;
        out[direction] = here >= level ? far : far - stepFt * ((level - here) / (before - here));
        open.splice(e, 1);
      }
      before = here;
    }
  }
  return rays.map(({ level, out }) => {
    const points = new Float64Array(2 * out.length);
    smoothRound(out).forEach((far, direction) => {
      const [dx, dy] = wayOf(direction);
      points[2 * direction] = startXFt + far * dx;
      points[2 * direction + 1] = startYFt + far * dy;
    });
    return { level, points };
  });
}

function wayOf(direction: number): readonly [number, number] {
  const angle = (2 * Math.PI * direction) / DIRECTIONS;
  return [Math.sin(angle), Math.cos(angle)];
}

/** Each direction with its neighbours, twice: where the edge jumps from one ray to the next it is no sharper than the eye can use. */
function smoothRound(out: Float64Array): Float64Array {
  const n = out.length;
  const once = (list: Float64Array) => list.map((far, k) => (list[(k + n - 1) % n] + 2 * far + list[(k + 1) % n]) / 4);
  return once(once(out));
}
