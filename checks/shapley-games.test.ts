import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bitCount, shapleyInto } from '../src/ledger/shapley.ts';

/** Each game says in the file where its values come from. */
const games = JSON.parse(readFileSync(new URL('./references/shapley-games.json', import.meta.url), 'utf8'));

function shapley(players: number, worth: (coalition: number) => number): Float64Array {
  const out = new Float64Array(players);
  shapleyInto(
    Float64Array.from({ length: 1 << players }, (_, coalition) => worth(coalition)),
    players,
    out,
  );
  return out;
}

/** Reads `2/3` or `.205`. */
function numberOf(text: string): number {
  const [over, under = '1'] = text.split('/');
  return Number(over) / Number(under);
}

/** Players of a coalition as they are named in the file, such as `13`. */
const nameOf = (coalition: number) => [1, 2, 3, 4, 5].filter((player) => (coalition >> (player - 1)) & 1).join('');

function expectValues(found: Float64Array, values: readonly string[], digits = 12): void {
  expect(found.length).toBe(values.length);
  found.forEach((share, i) => {
    expect(share).toBeCloseTo(numberOf(values[i]!), digits);
  });
}

describe('shapleyInto gives the published values', () => {
  it.each(['gloves', 'insurers', 'twoInfielders'])('%s', (name) => {
    const { players, worths, empty = 0, values } = games[name];
    const worth = (coalition: number) => (coalition === 0 ? empty : (worths[nameOf(coalition)] ?? 0));
    expectValues(shapley(players, worth), values, name === 'insurers' ? 8 : 12);
  });

  it('airport', () => {
    const { costs, values } = games.airport;
    const members = (coalition: number) => costs.filter((_: number, i: number) => (coalition >> i) & 1);
    expectValues(
      shapley(4, (coalition) => Math.max(0, ...members(coalition))),
      values,
    );
  });

  it('UN Security Council, fifteen players', () => {
    const { permanent, elected, votes, permanentValue, electedValue } = games.council;
    const all = (1 << permanent) - 1;
    const shares = shapley(permanent + elected, (coalition) =>
      (coalition & all) === all && bitCount(coalition) >= votes ? 1 : 0,
    );
    for (let i = 0; i < permanent; i += 1) expect(shares[i]).toBeCloseTo(numberOf(permanentValue), 12);
    for (let i = permanent; i < permanent + elected; i += 1) expect(shares[i]).toBeCloseTo(numberOf(electedValue), 12);
  });

  it('weighted majority', () => {
    const { quota, weights, values } = games.weighted;
    const weight = (coalition: number) =>
      weights.reduce((sum: number, w: number, i: number) => sum + ((coalition >> i) & 1 ? w : 0), 0);
    expectValues(
      shapley(4, (coalition) => (weight(coalition) >= quota ? 1 : 0)),
      values,
    );
  });

  it('at least one of three', () => {
    const { chances, values } = games.anyOfThree;
    const miss = (coalition: number) =>
      chances.reduce((left: number, p: number, i: number) => ((coalition >> i) & 1 ? left * (1 - p) : left), 1);
    expectValues(
      shapley(3, (coalition) => 1 - miss(coalition)),
      values,
    );
  });
});
