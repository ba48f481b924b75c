import { bagSideFt } from '../../diamond/bags.ts';
import {
  BASE_SPOTS,
  HOME_PLATE_WIDTH_FT,
  MOUND_CENTRE_FT,
  MOUND_RADIUS_FT,
  PITCHERS_PLATE_FT,
  type Spot,
} from '../../diamond/field.ts';
import { INFIELD_BOUNDARY } from '../../diamond/infield-boundary.ts';

/** One man of a plan. */
export interface DrawnStart {
  readonly position: number;
  readonly start: Spot;
  readonly even: Spot;
}

export interface PlanDrawing {
  readonly starts: readonly DrawnStart[];
  /** Occupied bases, 1 to 3. */
  readonly runners: readonly number[];
  /** For the size of the bags. */
  readonly season: number;
  /** Width and height of the picture in its own units (points on paper, pixels on a screen). */
  readonly width: number;
  readonly height: number;
}

/** Radii in picture units, so that a position number is as readable on a wide field as on a narrow one. */
const DISC = 5.4;
const RING = 4.4;
const MARGIN = DISC + 2;
/** What is always in the picture: the infield to the back of its arc. */
const INFIELD_EXTENT = { left: -92, right: 92, top: 158, bottom: -4 };
const INK = '#000';
const LIGHT = '#777';

interface Frame {
  readonly scale: number;
  x(xFt: number): number;
  y(yFt: number): number;
}

/**
 * A plan on the field, to scale, in black: starts as filled discs with the position number, even spots as rings, the move between
 * them as an arrow, occupied bases as filled bags. Returns an SVG element; it has no size but its viewBox unless `attributes` say one.
 */
export function drawPlan(drawing: PlanDrawing, attributes = ''): string {
  const frame = frameOf(drawing);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${drawing.width} ${drawing.height}" role="img" aria-label="${describe(drawing)}"${attributes === '' ? '' : ` ${attributes}`}>`,
    drawField(frame, drawing),
    ...drawing.starts.map((man) => drawMove(frame, man)),
    ...drawing.starts.map((man) => drawDisc(frame, man)),
    '</svg>',
  ].join('\n');
}

/** Fits the infield, and whoever stands beyond it, into the picture. */
function frameOf({ starts, width, height }: PlanDrawing): Frame {
  const spots = starts.flatMap(({ start, even }) => [start, even]);
  const left = Math.min(INFIELD_EXTENT.left, ...spots.map(({ x }) => x));
  const right = Math.max(INFIELD_EXTENT.right, ...spots.map(({ x }) => x));
  const top = Math.max(INFIELD_EXTENT.top, ...spots.map(({ y }) => y));
  const { bottom } = INFIELD_EXTENT;
  const scale = Math.min((width - 2 * MARGIN) / (right - left), (height - 2 * MARGIN) / (top - bottom));
  const x0 = width / 2 - (scale * (left + right)) / 2;
  const y0 = height / 2 + (scale * (top + bottom)) / 2;
  return { scale, x: (xFt) => x0 + scale * xFt, y: (yFt) => y0 - scale * yFt };
}

function drawField(frame: Frame, { runners, season, width }: PlanDrawing): string {
  const { scale, x, y } = frame;
  const at = (spot: Spot) => `${n(x(spot.x))} ${n(y(spot.y))}`;
  // Foul lines go to the edge of the picture.
  const reachFt = Math.min(width / 2 / scale, y(0) / scale);
  const foul = [-1, 1].map((side) => `M${at({ x: 0, y: 0 })} L${at({ x: side * reachFt, y: reachFt })}`).join(' ');
  const [, first, second, third] = BASE_SPOTS;
  const paths = `M${at(first!)} L${at(second!)} L${at(third!)}`;
  const parts = [
    stroke(arcPath(frame), LIGHT, 0.6, '3 2'),
    stroke(paths, LIGHT, 0.5),
    stroke(foul, INK, 0.7),
    `<circle cx="${n(x(0))}" cy="${n(y(MOUND_CENTRE_FT))}" r="${n(scale * MOUND_RADIUS_FT)}" fill="none" stroke="${LIGHT}" stroke-width="0.5"/>`,
    stroke(`M${at({ x: -1, y: PITCHERS_PLATE_FT })} L${at({ x: 1, y: PITCHERS_PLATE_FT })}`, INK, 0.9),
    drawHome(frame),
    ...[1, 2, 3].map((base) => drawBag(frame, base, season, runners.includes(base))),
  ];
  return parts.join('\n');
}

/** The arc between its two meetings with the foul lines. */
function arcPath({ scale, x, y }: Frame): string {
  const { centreFt, radiusFt } = INFIELD_BOUNDARY;
  // Where |x| = y: 2 y^2 - 2 centre y + centre^2 - radius^2 = 0.
  const meetFt = (centreFt + Math.sqrt(2 * radiusFt ** 2 - centreFt ** 2)) / 2;
  const r = n(scale * radiusFt);
  return `M${n(x(-meetFt))} ${n(y(meetFt))} A${r} ${r} 0 0 1 ${n(x(meetFt))} ${n(y(meetFt))}`;
}

/** The plate's five corners: a square of 17 inches with its back corners cut off to a point (OBR 2.02). */
function drawHome({ x, y }: Frame): string {
  const half = HOME_PLATE_WIDTH_FT / 2;
  const corners = [
    [0, 0],
    [half, half],
    [half, 2 * half],
    [-half, 2 * half],
    [-half, half],
  ] as const;
  const points = corners.map(([px, py]) => `${n(x(px))},${n(y(py))}`).join(' ');
  return `<polygon points="${points}" fill="${INK}" stroke="${INK}" stroke-width="0.5"/>`;
}

/** A bag to scale, standing on its corner; one that a runner is on is large and filled, so that it is seen at arm's length. */
function drawBag({ scale, x, y }: Frame, base: number, season: number, isOccupied: boolean): string {
  const spot = BASE_SPOTS[base]!;
  const half = isOccupied ? 3.4 : Math.max((scale * bagSideFt(season)) / 2, 1.2);
  const [cx, cy] = [x(spot.x), y(spot.y)];
  return `<rect x="${n(cx - half)}" y="${n(cy - half)}" width="${n(2 * half)}" height="${n(2 * half)}" transform="rotate(45 ${n(cx)} ${n(cy)})" fill="${isOccupied ? INK : '#fff'}" stroke="${INK}" stroke-width="0.7"/>`;
}

/** The even spot's ring and the arrow from it; none when the disc would cover both. */
function drawMove({ x, y }: Frame, { start, even }: DrawnStart): string {
  const [ex, ey] = [x(even.x), y(even.y)];
  const [dx, dy] = [x(start.x) - ex, y(start.y) - ey];
  const length = Math.hypot(dx, dy);
  const ring = `<circle cx="${n(ex)}" cy="${n(ey)}" r="${RING}" fill="#fff" fill-opacity="0.85" stroke="${INK}" stroke-width="1"/>`;
  const shaft = length - RING - DISC;
  if (shaft < 2) return ring;
  const [ux, uy] = [dx / length, dy / length];
  const [fromX, fromY] = [ex + ux * RING, ey + uy * RING];
  const [tipX, tipY] = [ex + ux * (RING + shaft), ey + uy * (RING + shaft)];
  const barb = Math.min(3.4, shaft);
  const head = [-1, 1].map((side) => [
    tipX - ux * barb - side * uy * barb * 0.55,
    tipY - uy * barb + side * ux * barb * 0.55,
  ]);
  const points = [[tipX, tipY], ...head].map(([px, py]) => `${n(px!)},${n(py!)}`).join(' ');
  const line = stroke(`M${n(fromX)} ${n(fromY)} L${n(tipX - ux * barb)} ${n(tipY - uy * barb)}`, INK, 0.9);
  return `${ring}\n${line}\n<polygon points="${points}" fill="${INK}"/>`;
}

function drawDisc({ x, y }: Frame, { position, start }: DrawnStart): string {
  const [cx, cy] = [x(start.x), y(start.y)];
  return [
    `<circle cx="${n(cx)}" cy="${n(cy)}" r="${DISC}" fill="${INK}" stroke="#fff" stroke-width="0.8"/>`,
    `<text x="${n(cx)}" y="${n(cy + 2.7)}" text-anchor="middle" font-size="7.6" font-weight="bold" font-family="sans-serif" fill="#fff">${position}</text>`,
  ].join('\n');
}

function describe({ starts, runners }: PlanDrawing): string {
  const who = starts.map(({ position }) => position).join(', ');
  const on = runners.length === 0 ? 'nobody on' : `runners on ${runners.join(', ')}`;
  return `Planned starts of positions ${who} on the field; ${on}`;
}

function stroke(path: string, colour: string, width: number, dashes?: string): string {
  const dash = dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`;
  return `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${width}"${dash}/>`;
}

/** Text as XML takes it. */
export function escapeXml(text: string): string {
  return text.replace(/\p{Cc}/gu, '·').replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

/** A coordinate short enough to read. */
const n = (value: number) => String(Math.round(value * 100) / 100);
