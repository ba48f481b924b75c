import { expect, test } from 'vitest';
import { bagSideFt, secondBagHalfWidthFt } from '../../src/diamond/bags.ts';

const INCHES = 1 / 12;

test('bags are 15 in to 2022 and 18 in from 2023 (press, 2023)', () => {
  expect(bagSideFt(2022)).toBeCloseTo(15 * INCHES, 12);
  expect(bagSideFt(2023)).toBeCloseTo(18 * INCHES, 12);
  expect(bagSideFt(1990)).toBe(bagSideFt(2022));
  expect(bagSideFt(2031)).toBe(bagSideFt(2023));
});

test('home sees the bag at second on edge', () => {
  // A square of side s on its corner is s times the root of 2 wide.
  expect(2 * secondBagHalfWidthFt(2023)).toBeCloseTo(18 * Math.SQRT2 * INCHES, 12);
});
