import fc from 'fast-check';
import { radians } from '../../src/diamond/bearing.ts';
import { CATCHER_START, PITCHER_START } from '../../src/diamond/field.ts';

/** Bearing in degrees and depth in feet by position number. */
export type Infield = Record<3 | 4 | 5 | 6, readonly [number, number]>;

/** Everybody where he usually stands against a right-handed batter. */
export const USUAL: Infield = { 3: [32, 118], 4: [12, 148], 5: [-33, 118], 6: [-16, 148] };

/** One play's six starts. */
export function infieldStarts(infield: Infield): Float64Array {
  const starts = new Float64Array(12);
  starts.set([PITCHER_START.x, PITCHER_START.y, CATCHER_START.x, CATCHER_START.y]);
  for (const [position, [bearing, depth]] of Object.entries(infield)) {
    const at = 2 * Number(position) - 2;
    starts[at] = depth * Math.sin(radians(bearing));
    starts[at + 1] = depth * Math.cos(radians(bearing));
  }
  return starts;
}

/** The same infield in a looking glass: first base for third, second base for shortstop. */
export function mirrored(starts: Float64Array): Float64Array {
  const other = [0, 1, 2, 5, 6, 3, 4];
  const image = new Float64Array(12);
  for (let position = 1; position <= 6; position += 1) {
    const from = 2 * other[position]! - 2;
    image[2 * position - 2] = -starts[from]!;
    image[2 * position - 1] = starts[from + 1]!;
  }
  return image;
}

const SHAPES: readonly Infield[] = [
  USUAL,
  { 3: [36, 118], 4: [25, 162], 5: [-15, 140], 6: [7, 150] },
  { 3: [32, 99], 4: [12, 110], 5: [-33, 99], 6: [-16, 110] },
  { 3: [34, 92], 4: [12, 148], 5: [-33, 92], 6: [-16, 148] },
  { 3: [42, 95], 4: [9.5, 137], 5: [-33, 118], 6: [-13, 137] },
  { 3: [39, 118], 4: [12, 148], 5: [-39, 118], 6: [-16, 148] },
];

const move = fc.tuple(fc.double({ min: -15, max: 15, noNaN: true }), fc.double({ min: -40, max: 15, noNaN: true }));

/** Every shape that has a name, from well ordered to wild: each man moved by up to 15 degrees and 40 ft, mostly by less. */
export const anyInfield: fc.Arbitrary<Float64Array> = fc
  .tuple(fc.constantFrom(...SHAPES), fc.double({ min: 0, max: 1, noNaN: true }), fc.tuple(move, move, move, move))
  .map(([shape, wildness, moves]) => {
    const moved = ([3, 4, 5, 6] as const).map((position, k) => {
      const [bearing, depth] = shape[position];
      const [turn, step] = moves[k]!;
      return [position, [bearing + wildness ** 2 * turn, depth + wildness ** 2 * step]] as const;
    });
    return infieldStarts(Object.fromEntries(moved) as unknown as Infield);
  });
