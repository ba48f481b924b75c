import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bitCount, shapleyInto } from '../../src/ledger/shapley.ts';

function shapley(values: Float64Array, players: number): Float64Array {
  const out = new Float64Array(players);
  shapleyInto(values, players, out);
  return out;
}

const value = fc.double({ min: -1, max: 1, noNaN: true });
const game = fc.integer({ min: 1, max: 6 }).chain((players) =>
  fc.record({
    players: fc.constant(players),
    values: fc.array(value, { minLength: 1 << players, maxLength: 1 << players }).map((v) => Float64Array.from(v)),
  }),
);

/** The mean marginal contribution over all orders, one order after the other: the definition, slowly. */
function byOrders(values: Float64Array, players: number): Float64Array {
  const out = new Float64Array(players);
  let orders = 0;
  const come = (there: number) => {
    if (bitCount(there) === players) {
      orders += 1;
      return;
    }
    for (let i = 0; i < players; i += 1) {
      if (there & (1 << i)) continue;
      const before = orders;
      come(there | (1 << i));
      out[i]! += (orders - before) * (values[there | (1 << i)]! - values[there]!);
    }
  };
  come(0);
  return out.map((sum) => sum / orders);
}

describe('shapleyInto by the axioms (Shapley 1953)', () => {
  it('shares out v(all) - v(empty)', () => {
    fc.assert(
      fc.property(game, ({ players, values }) => {
        const total = shapley(values, players).reduce((a, b) => a + b);
        expect(total).toBeCloseTo(values.at(-1)! - values[0]!, 12);
      }),
      { seed: 12 },
    );
  });

  it('is the mean over all orders', () => {
    fc.assert(
      fc.property(game, ({ players, values }) => {
        const slow = byOrders(values, players);
        shapley(values, players).forEach((share, i) => {
          expect(share).toBeCloseTo(slow[i]!, 12);
        });
      }),
      { seed: 13, numRuns: 40 },
    );
  });

  it('gives exactly nothing to a player who changes nothing', () => {
    fc.assert(
      fc.property(game, fc.nat(), ({ players, values }, pick) => {
        const bit = 1 << (pick % players);
        const without = values.map((_, a) => values[a & ~bit]!);
        expect(shapley(without, players)[pick % players]).toBe(0);
      }),
      { seed: 14 },
    );
  });

  it('gives equal shares to players who can change places', () => {
    fc.assert(
      fc.property(
        game.filter(({ players }) => players > 1),
        ({ players, values }) => {
          // Average each coalition with its mirror image under an exchange of players 0 and 1.
          const exchanged = (a: number) => (a & ~3) | ((a & 1) << 1) | ((a >> 1) & 1);
          const alike = values.map((v, a) => (v + values[exchanged(a)]!) / 2);
          const shares = shapley(alike, players);
          expect(shares[0]).toBeCloseTo(shares[1]!, 12);
        },
      ),
      { seed: 15 },
    );
  });

  it('adds up over games, so that a mean over draws may be taken before or after', () => {
    fc.assert(
      fc.property(game, value, ({ players, values }, factor) => {
        const other = values.map((v, a) => Math.cos(7 * a) * v);
        const sum = values.map((v, a) => v + factor * other[a]!);
        const [first, second, both] = [values, other, sum].map((v) => shapley(v, players));
        both!.forEach((share, i) => {
          expect(share).toBeCloseTo(first![i]! + factor * second![i]!, 12);
        });
      }),
      { seed: 16 },
    );
  });

  it('manages fifteen players', () => {
    const values = Float64Array.from({ length: 1 << 15 }, (_, a) => bitCount(a) ** 2);
    for (const share of shapley(values, 15)) expect(share).toBeCloseTo(15, 9);
  });
});

describe('bitCount', () => {
  it('counts', () => {
    expect([0, 1, 2, 3, 255, 256, (1 << 20) - 1].map(bitCount)).toEqual([0, 1, 1, 2, 8, 1, 20]);
  });
});
