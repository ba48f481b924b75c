import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromOwnUnit, toOwnUnit, UNIT_NAMES, unitsFor } from '../../src/intake/units.ts';

test('there and back again', () => {
  fc.assert(
    fc.property(fc.constantFrom(...UNIT_NAMES), fc.double({ noNaN: true, min: -1e6, max: 1e6 }), (unit, value) => {
      expect(fromOwnUnit(toOwnUnit(value, unit), unit)).toBeCloseTo(value, 6);
    }),
  );
});

// By the definitions of the international foot (0.3048 m) and mile (1609.344 m).
test.each([
  ['m', 0.3048, 1],
  ['cm', 30.48, 1],
  ['in', 12, 1],
  ['yd', 1, 3],
  ['km/h', 1.609344, 1],
  ['m/s', 0.44704, 1],
  ['ms', 1500, 1.5],
  ['rad', Math.PI / 4, 45],
] as const)('%s', (unit, value, own) => {
  expect(toOwnUnit(value, unit)).toBeCloseTo(own, 12);
});

test('a column takes the units of its kind only', () => {
  expect(unitsFor('exit_speed_mph')).toEqual(['mph', 'km/h', 'm/s']);
  expect(unitsFor('gather_time_s')).toEqual(['s', 'ms']);
  expect(unitsFor('bearing_deg')).toEqual(['deg', 'rad']);
  expect(unitsFor('landing_x_ft')).toContain('cm');
  expect(unitsFor('outs_made')).toEqual([]);
});
