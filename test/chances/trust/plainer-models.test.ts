import { expect, test } from 'vitest';
import { additiveOnly, cellOf, ShareTable } from '../../../src/chances/trust/plainer-models.ts';
import type { Term } from '../../../src/models/terms.ts';

const margin = (covariate: string) => ({ covariate, lo: 0, hi: 1, segments: 3 });

test('a tensor gives way to a smooth of each margin, once each', () => {
  const terms: Term[] = [
    { kind: 'tensor', margins: [margin('a'), margin('b')] },
    { kind: 'tensor', margins: [margin('b'), margin('c')] },
    { kind: 'smooth', margin: margin('a') },
    { kind: 'random', covariate: 'd', levels: 3 },
  ];
  expect(additiveOnly(terms)).toEqual([
    { kind: 'smooth', margin: margin('a') },
    { kind: 'smooth', margin: margin('b') },
    { kind: 'smooth', margin: margin('c') },
    { kind: 'random', covariate: 'd', levels: 3 },
  ]);
});

test('what lies outside goes to the outermost cell, an edge to the cell above it', () => {
  const edges = [0, 10, 20];
  expect([-5, 0, 9.9, 10, 20, 99, Number.NaN].map((x) => cellOf(edges, x))).toEqual([0, 0, 0, 1, 1, 1, -1]);
});

test('a table of shares knows its cells, and its mean where it knows nothing', () => {
  const table = new ShareTable();
  for (let k = 0; k < 999; k += 1) table.add(0, 70, k % 3 === 0 ? 1 : 0);
  for (let k = 0; k < 1000; k += 1) table.add(30, 70, 1);
  expect(table.share(0, 70)).toBeCloseTo(1 / 3, 3);
  expect(table.share(30, 70)).toBeCloseTo(1, 3);
  expect(table.share(-40, 20)).toBeCloseTo(table.mean, 12);
  expect(table.share(Number.NaN, 70)).toBe(table.mean);
  expect(table.mean).toBeCloseTo(1333 / 1999, 3);
  expect(new ShareTable().mean).toBe(0.5);
});
