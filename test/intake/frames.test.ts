import fc from 'fast-check';
import { expect, test } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import {
  axesAreSquare,
  DIRECTION_NAMES,
  type FrameSpec,
  frameOf,
  frameSql,
  fromField,
  toField,
} from '../../src/intake/frames.ts';
import { LENGTH_UNITS } from '../../src/intake/units.ts';

const frames: fc.Arbitrary<FrameSpec> = fc
  .record({
    unit: fc.constantFrom(...LENGTH_UNITS),
    origin_ft: fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 })),
    x_toward: fc.constantFrom(...DIRECTION_NAMES),
    y_toward: fc.constantFrom(...DIRECTION_NAMES),
  })
  .filter(axesAreSquare);
const coordinate = fc.double({ noNaN: true, min: -1000, max: 1000 });

test('a frame inverts', () => {
  fc.assert(
    fc.property(frames, coordinate, coordinate, (spec, x, y) => {
      const frame = frameOf(spec);
      const { xFt, yFt } = toField(frame, x, y);
      const back = fromField(frame, xFt, yFt);
      expect(back.x).toBeCloseTo(x, 6);
      expect(back.y).toBeCloseTo(y, 6);
    }),
  );
});

test('a frame keeps distances, in its unit', () => {
  fc.assert(
    fc.property(frames, coordinate, coordinate, (spec, x, y) => {
      const frame = frameOf({ ...spec, unit: 'yd' });
      const { xFt, yFt } = toField(frame, x, y);
      const away = Math.hypot(xFt - spec.origin_ft[0], yFt - spec.origin_ft[1]);
      expect(away).toBeCloseTo(3 * Math.hypot(x, y), 6);
    }),
  );
});

test('the SQL of a frame is the same map', async () => {
  const store = await openDuckDbStore(IN_MEMORY);
  try {
    await fc.assert(
      fc.asyncProperty(frames, coordinate, coordinate, async (spec, x, y) => {
        const frame = frameOf(spec);
        const sql = frameSql(frame, `(${x}::DOUBLE)`, `(${y}::DOUBLE)`);
        const [row] = await store.rows(`SELECT ${sql.xFt} AS x, ${sql.yFt} AS y`);
        const { xFt, yFt } = toField(frame, x, y);
        expect(row!.x).toBeCloseTo(xFt, 8);
        expect(row!.y).toBeCloseTo(yFt, 8);
      }),
      { numRuns: 60 },
    );
  } finally {
    await store.close();
  }
});

test('metres from behind the pitcher toward home and third base', () => {
  const frame = frameOf({ unit: 'm', origin_ft: [0, 60.5], x_toward: 'third_base', y_toward: 'home' });
  const { xFt, yFt } = toField(frame, 3.048, -3.048);
  expect(xFt).toBeCloseTo(-10, 10);
  expect(yFt).toBeCloseTo(70.5, 10);
});

test('axes along the foul lines: 90 ft out on both is second base, 127.279 ft from home (OBR 2.01)', () => {
  const frame = frameOf({ unit: 'ft', origin_ft: [0, 0], x_toward: 'first_base_line', y_toward: 'third_base_line' });
  const { xFt, yFt } = toField(frame, 90, 90);
  expect(xFt).toBeCloseTo(0, 10);
  expect(yFt).toBeCloseTo(127.27922, 4);
});
