import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SIMPLE_ADVANCEMENT } from '../../../src/ledger/runs/advancement.ts';
import { halfInningChain } from '../../../src/ledger/runs/half-inning-chain.ts';

// Where each number comes from stands beside it in the file.
const reference = JSON.parse(
  readFileSync(new URL('../../../checks/references/run-chain.json', import.meta.url), 'utf8'),
);
const NEVER = { walk: 0, single: 0, double: 0, triple: 0, home_run: 0 };
const singlesOnly = (p: number) => halfInningChain({ ...NEVER, single: p, out: 1 - p }, SIMPLE_ADVANCEMENT);

test('singles only, at the published chance: expected runs and their distribution', () => {
  const { p, runs, distribution } = reference.singles_only;
  const chain = singlesOnly(p);
  expect(chain.runs[0]).toBeCloseTo(runs, 5);
  distribution.forEach((chance: number, n: number) => {
    expect(Math.abs(chain.distribution[n] - chance)).toBeLessThanOrEqual(0.00005 + 1e-9);
  });
});

test('singles only, at any chance: the published formula', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 0.9, noNaN: true }), (p) => {
      const published = (p ** 3 * (3 * p * p - 10 * p + 10)) / (1 - p);
      expect(singlesOnly(p).runs[0] / published).toBeCloseTo(1, 9);
    }),
  );
});

test('home run or out: 3p / (1 - p) runs, whatever the state more by the runners it scores', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 0.9, noNaN: true }), (p) => {
      const { runs } = halfInningChain({ ...NEVER, home_run: p, out: 1 - p }, SIMPLE_ADVANCEMENT);
      expect(runs[0] / ((3 * p) / (1 - p))).toBeCloseTo(1, 9);
      expect(runs[7] - runs[0]).toBeCloseTo(3 * (1 - (1 - p) ** 3), 9);
    }),
  );
});

test('a mixture of all events', () => {
  const { rates, runs, nine_innings, batters, nobody_out_by_bases_bits } = reference.mixed;
  const chain = halfInningChain(rates, SIMPLE_ADVANCEMENT);
  expect(chain.runs[0]).toBeCloseTo(runs, 6);
  expect(9 * chain.runs[0]).toBeCloseTo(nine_innings, 6);
  expect(chain.batters[0]).toBeCloseTo(batters, 6);
  nobody_out_by_bases_bits.forEach((value: number, bases: number) => {
    expect(Math.abs(chain.runs[bases] - value)).toBeLessThanOrEqual(0.00005 + 1e-9);
  });
});

test('the distribution adds up to one and has the expected runs as its mean; visits add up to the batters', () => {
  const chain = halfInningChain(reference.mixed.rates, SIMPLE_ADVANCEMENT);
  const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);
  expect(sum(chain.distribution)).toBeCloseTo(1, 12);
  expect(sum(chain.distribution.map((chance, n) => n * chance))).toBeCloseTo(chain.runs[0], 6);
  expect(sum(chain.visits)).toBeCloseTo(chain.batters[0], 9);
});

test('impossible rates are refused', () => {
  expect(() => singlesOnly(1)).toThrow(/no end/);
  expect(() => singlesOnly(-0.1)).toThrow(/zero or more/);
  expect(() => halfInningChain({ ...NEVER, out: 0.9 }, SIMPLE_ADVANCEMENT)).toThrow(/add up to one/);
});
