import { BASE_SPOTS, PITCHERS_PLATE_FT } from '../../src/diamond/field.ts';
import { INFIELD_BOUNDARY } from '../../src/diamond/infield-boundary.ts';
import { closedPath, pathPoint } from './view-box.ts';

/** The mound: 18 ft across, its centre 59 ft from home (OBR 2.01). */
export const MOUND = { yFt: 59, radiusFt: 9 } as const;
/** The circle of dirt at home: 26 ft across (a customary measure, from memory). */
export const HOME_CIRCLE_RADIUS_FT = 13;
/** Width of the pitcher's plate and its depth (OBR 2.07). */
export const PITCHERS_PLATE = { yFt: PITCHERS_PLATE_FT, widthFt: 2, depthFt: 0.5 } as const;

/** Dirt beside a base path inside and outside the square, and round a bag (customary measures, from memory). */
const BESIDE_PATH_FT = 4;
const ROUND_BAG_FT = 13;
const ARC_STEPS = 48;

/** Outer edge of the dirt: the arc where the outfield grass begins, then along the base paths to home. */
export function dirtPath(): string {
  const { centreFt, radiusFt } = INFIELD_BOUNDARY;
  const points: number[] = [];
  // Where the arc meets the outside of the paths' dirt, a little in foul ground.
  const reachDeg = 45 + 2.5;
  for (let step = 0; step <= ARC_STEPS; step += 1) {
    const bearing = ((step / ARC_STEPS) * 2 - 1) * reachDeg * (Math.PI / 180);
    const along = centreFt * Math.cos(bearing);
    const distance = along + Math.sqrt(radiusFt * radiusFt - (centreFt * Math.sin(bearing)) ** 2);
    points.push(distance * Math.sin(bearing), distance * Math.cos(bearing));
  }
  points.push(BESIDE_PATH_FT, -BESIDE_PATH_FT, -BESIDE_PATH_FT, -BESIDE_PATH_FT);
  return closedPath(points);
}

/** The grass inside the square: cut off round each bag. */
export function infieldGrassPath(): string {
  const corners = [BASE_SPOTS[4]!, BASE_SPOTS[1]!, BASE_SPOTS[2]!, BASE_SPOTS[3]!];
  const middle = BASE_SPOTS[2]!.y / 2;
  const inset = corners.map(({ x, y }) => {
    const out = Math.hypot(x, y - middle);
    const share = 1 - (BESIDE_PATH_FT * Math.SQRT2) / out;
    return { x: x * share, y: middle + (y - middle) * share };
  });
  const cutFt = ROUND_BAG_FT - BESIDE_PATH_FT;
  let path = '';
  inset.forEach((corner, k) => {
    const before = inset[(k + 3) % 4]!;
    const after = inset[(k + 1) % 4]!;
    const from = toward(corner, before, cutFt);
    const to = toward(corner, after, cutFt);
    path += `${k === 0 ? 'M' : 'L'}${pathPoint(from.x, from.y)}A${ROUND_BAG_FT} ${ROUND_BAG_FT} 0 0 1 ${pathPoint(to.x, to.y)}`;
  });
  return `${path}Z`;
}

function toward(from: { x: number; y: number }, to: { x: number; y: number }, feet: number) {
  const share = feet / Math.hypot(to.x - from.x, to.y - from.y);
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/** Home plate: 17 in wide, its rear point at the origin (OBR 2.02). */
export function homePlatePath(): string {
  const half = 17 / 24;
  return closedPath([0, 0, half, half, half, 2 * half, -half, 2 * half, -half, half]);
}
