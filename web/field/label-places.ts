import type { AreaEdge } from '../../src/chances/area-covered.ts';
import type { FieldWindow } from './view-box.ts';

/** Everything here is in feet of the frame. */
export interface Segment {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A label with the middles of the places where it may stand, best first. */
export interface Label {
  readonly text: string;
  readonly places: readonly { readonly x: number; readonly y: number }[];
  /** Rather none than one that lies on a man or another label. */
  readonly mayBeLeftOut?: boolean;
}

const CHARACTER_PX = 7.4;
const LINE_PX = 16;
/** Nearer to its middle an area's edge has no room for a label beside the man. */
const SMALLEST_AREA_PX = 38;
const SAMPLE_STEPS = 12;
const ON_LINE = 1;
const ON_DISC = 3;
const ON_LABEL = 5;
/** A label that is cut off is worse than one over anything. */
const OUTSIDE = 100;

export function lengthText(seconds: number): string {
  return `${seconds.toFixed(1)} s`;
}

export function levelText(level: number): string {
  return `${Math.round(level * 100)} %`;
}

/**
 * Labels of an area's levels, widest first: each inside its own edge, where there is room for it between that and the next one;
 * an area that is hardly wider than the man himself has none.
 */
export function areaLabels(edges: readonly AreaEdge[], px: number): Label[] {
  const wide = edges
    .filter(({ points }) => points.length > 0)
    .map(({ level, points }) => {
      const middle = middleOf(points);
      const out = Array.from({ length: points.length / 2 }, (_, k) =>
        Math.hypot(points[2 * k]! - middle.x, points[2 * k + 1]! - middle.y),
      );
      return { level, points, middle, out, mean: out.reduce((sum, each) => sum + each, 0) / out.length };
    });
  return wide.flatMap(({ level, points, middle, out, mean }, k) => {
    const next = wide[k + 1]?.mean ?? 0;
    if (mean - next < 1.2 * LINE_PX * px) return [];
    const places: { x: number; y: number }[] = [];
    out.forEach((far, direction) => {
      if (direction % 5 !== 0 || far < SMALLEST_AREA_PX * px) return;
      const inside = 1 - (LINE_PX * 0.75 * px) / far;
      places.push({
        x: middle.x + (points[2 * direction]! - middle.x) * inside,
        y: middle.y + (points[2 * direction + 1]! - middle.y) * inside,
      });
    });
    return places.length === 0 ? [] : [{ text: levelText(level), places }];
  });
}

function middleOf(points: ArrayLike<number>): { x: number; y: number } {
  const n = points.length / 2;
  let [x, y] = [0, 0];
  for (let k = 0; k < n; k += 1) {
    x += points[2 * k]! / n;
    y += points[2 * k + 1]! / n;
  }
  return { x, y };
}

/**
 * Puts each label where it covers the least of the lines, discs and labels before it; of equal places the first. `px` is the
 * length of a pixel, `within` what can be seen. Returns middles by text.
 */
export function placeLabels(
  labels: readonly Label[],
  segments: readonly Segment[],
  discs: readonly Disc[],
  px: number,
  within?: FieldWindow,
): Map<string, { readonly x: number; readonly y: number }> {
  const placed = new Map<string, { readonly x: number; readonly y: number }>();
  const taken: Box[] = [];
  for (const { text, places, mayBeLeftOut } of labels) {
    const boxes = places.map((place) => boxOf(text, place, px));
    const costs = boxes.map((box) => costOf(box, segments, discs, taken) + (isInside(box, within) ? 0 : OUTSIDE));
    const best = costs.indexOf(Math.min(...costs));
    if (best < 0 || (mayBeLeftOut === true && costs[best]! >= ON_DISC)) continue;
    placed.set(text, places[best]!);
    taken.push(boxes[best]!);
  }
  return placed;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

function isInside({ left, right, low, high }: Box, within: FieldWindow | undefined): boolean {
  if (within === undefined) return true;
  return left >= within.left && right <= within.right && low >= within.low && high <= within.high;
}

function boxOf(text: string, { x, y }: { x: number; y: number }, px: number): Box {
  const half = ((text.length * CHARACTER_PX) / 2 + 2) * px;
  return { left: x - half, right: x + half, low: y - (LINE_PX / 2) * px, high: y + (LINE_PX / 2) * px };
}

function costOf(box: Box, segments: readonly Segment[], discs: readonly Disc[], taken: readonly Box[]): number {
  let cost = 0;
  for (const { x1, y1, x2, y2 } of segments) {
    // A line is tried at points close enough not to slip past a line of text.
    const steps = Math.max(SAMPLE_STEPS, Math.ceil(Math.hypot(x2 - x1, y2 - y1) / (box.high - box.low)) * 2);
    for (let k = 0; k <= steps; k += 1) {
      const x = x1 + ((x2 - x1) * k) / steps;
      const y = y1 + ((y2 - y1) * k) / steps;
      if (x > box.left && x < box.right && y > box.low && y < box.high) {
        cost += ON_LINE;
        break;
      }
    }
  }
  for (const { x, y, radius } of discs) {
    const dx = Math.max(box.left - x, 0, x - box.right);
    const dy = Math.max(box.low - y, 0, y - box.high);
    if (Math.hypot(dx, dy) < radius) cost += ON_DISC;
  }
  for (const other of taken) {
    const apart = box.left > other.right || box.right < other.left || box.low > other.high || box.high < other.low;
    if (!apart) cost += ON_LABEL;
  }
  return cost;
}
