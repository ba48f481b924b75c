import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { SpotAnswers } from '../../src/plans/chance-board.ts';
import { ChanceChain } from '../../src/plans/chance-chain.ts';
import { StandingMen } from '../../src/plans/standing-men.ts';

const BALLS = 7;
const SPOTS = 5;
const MOVERS = 3;

/** A man's answers at random; of many balls he has no chance. No two men of different `turn` have the same turn. */
const man = (spots: number, turn: number) =>
  fc
    .array(fc.record({ turn: fc.nat(4).map((whole) => whole + turn), reach: fc.option(unit()), promise: unit() }), {
      minLength: BALLS * spots,
      maxLength: BALLS * spots,
    })
    .map(
      (list): SpotAnswers => ({
        spots,
        turn: Float32Array.from(list, ({ turn }) => turn),
        reach: Float32Array.from(list, ({ reach }) => reach ?? 0),
        promise: Float32Array.from(list, ({ promise }) => promise),
      }),
    );
const unit = () => fc.double({ min: 0, max: 1, noNaN: true });
const numbers = (count: number, number: fc.Arbitrary<number>) =>
  fc.array(number, { minLength: count, maxLength: count });

const question = fc.record({
  movers: fc.tuple(man(SPOTS, 0.1), man(SPOTS, 0.2), man(SPOTS, 0.3)),
  still: fc.tuple(man(1, 0.4), man(1, 0.5)),
  worth: numbers(BALLS, unit()).map((list) => Float64Array.from(list)),
  costs: fc
    .tuple(...Array.from({ length: MOVERS }, () => numbers(SPOTS, unit())))
    .map((list) => list.map((costs) => Float64Array.from(costs))),
  lineUps: fc.array(numbers(MOVERS, fc.nat(SPOTS - 1)), { minLength: 1, maxLength: 4 }),
});

test('the value is that of the chain of every ball, and a gain is what it rises by when a man comes', () => {
  fc.assert(
    fc.property(question, ({ movers, still, worth, costs, lineUps }) => {
      const men = new StandingMen(movers, costs, still, worth);
      /** -1 for a man who is not there. */
      const plainly = (spots: readonly number[]) => {
        const chain = new ChanceChain(MOVERS + still.length);
        let value = 0;
        for (let at = 0; at < BALLS; at += 1) {
          chain.clear();
          const stand = ({ turn, reach, promise }: SpotAnswers, k: number) =>
            chain.add(turn[k]!, reach[k]!, promise[k]!);
          for (const each of still) stand(each, at);
          spots.forEach((spot, m) => {
            if (spot >= 0) stand(movers[m]!, at * SPOTS + spot);
          });
          value += worth[at]! * chain.mark();
        }
        return spots.reduce((sum, spot, m) => sum - (spot < 0 ? 0 : costs[m]![spot]!), value);
      };
      for (const spots of lineUps) {
        expect(men.value(spots)).toBeCloseTo(plainly(spots), 10);
        for (let m = 0; m < MOVERS; m += 1) {
          const placed = (spot: number) => spots.map((own, each) => (each === m ? spot : own));
          const without = plainly(placed(-1));
          men.gains(m, spots).forEach((gain, s) => {
            expect(gain).toBeCloseTo(plainly(placed(s)) - without, 10);
          });
        }
      }
    }),
    { numRuns: 60 },
  );
});
