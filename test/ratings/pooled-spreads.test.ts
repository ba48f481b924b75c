import { expect, it } from 'vitest';
import { findSpread, medianOf } from '../../src/ratings/man-spread.ts';
import { poolSpreads } from '../../src/ratings/pooled-spreads.ts';

/** Log likelihood of a normal sample's spread beside noise of variance 1: `men` values whose mean square is `square`. */
const evidenceOf = (men: number, square: number) => (spread: number) => {
  const variance = 1 + spread * spread;
  return -0.5 * men * (Math.log(variance) + square / variance);
};

const wide = findSpread(evidenceOf(400, 1 + 0.6 ** 2));
const silent = findSpread(evidenceOf(6, 0.8));

it('gives a position that shows nothing about the spread of the others, and leaves alone what is sure', () => {
  expect(silent.likeliest).toBe(0);
  const [one, , , last] = poolSpreads([wide, wide, wide, silent]);
  expect(Math.abs(medianOf(one!) - medianOf(wide))).toBeLessThan(0.03);
  expect(medianOf(last!)).toBeGreaterThan(medianOf(silent));
  expect(medianOf(last!)).toBeGreaterThan(0.4);
  expect(medianOf(last!)).toBeLessThan(0.7);
});

it('believes a position that surely differs', () => {
  const narrow = findSpread(evidenceOf(4000, 1 + 0.1 ** 2));
  const [, , pooled] = poolSpreads([wide, wide, narrow]);
  expect(medianOf(pooled!)).toBeLessThan(0.25);
});

it('has draws in order, of which none is 0', () => {
  const [pooled] = poolSpreads([silent]);
  const draws = [...pooled!.draws];
  expect(draws).toEqual([...draws].sort((a, b) => a - b));
  expect(draws[0]).toBeGreaterThan(0);
});
