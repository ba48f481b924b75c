import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Advancement,
  SIMPLE_ADVANCEMENT,
  TURNS,
  type Turn,
  type Way,
} from '../../../src/ledger/runs/advancement.ts';
import { INNING_OVER, RUNNERS } from '../../../src/ledger/runs/base-out.ts';
import { type BallClass, type BaseRunning, USUAL_BASE_RUNNING } from '../../../src/ledger/runs/base-running.ts';
import { type EventValues, eventValues } from '../../../src/ledger/runs/event-values.ts';
import { halfInningChain } from '../../../src/ledger/runs/half-inning-chain.ts';
import { LINDSEY_1963_RUNS } from '../../../src/ledger/runs/lindsey-1963.ts';
import { advancementOn } from '../../../src/ledger/runs/run-values.ts';

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../../checks/references/${name}`, import.meta.url), 'utf8'));
const tables = read('run-tables.json');
const { rates } = read('run-chain.json').mixed;

/** States as they occur in a half inning of the reference chain. */
const { visits } = halfInningChain(rates, SIMPLE_ADVANCEMENT);
const lindsey = (advancement: Advancement) => eventValues({ runs: LINDSEY_1963_RUNS, plays: visits }, advancement);
const usual = (ball: BallClass) => lindsey(advancementOn(ball, USUAL_BASE_RUNNING));

test("values from Lindsey's table lie within 0.06 run of his own, with either set of rules", () => {
  for (const values of [lindsey(SIMPLE_ADVANCEMENT), usual('ground'), usual('air')]) {
    for (const hit of ['single', 'double', 'triple', 'home_run'] as const)
      expect(Math.abs(values[hit].neutral - tables.lindsey_1963.event_values[hit])).toBeLessThan(0.06);
  }
});

test('and within 0.09 of the weights of Thorn and Palmer, whose third figures are from memory', () => {
  for (const values of [lindsey(SIMPLE_ADVANCEMENT), usual('ground'), usual('air')]) {
    for (const event of ['single', 'double', 'triple', 'out'] as const)
      expect(Math.abs(values[event].neutral - tables.thorn_palmer_1984[event])).toBeLessThan(0.09);
  }
});

test('a hit through the middle less an out is about 0.75 run', () => {
  const { single, double, out } = usual('ground');
  const stake = 0.98 * single.neutral + 0.02 * double.neutral - out.neutral;
  expect(Math.abs(stake - tables.hit_less_out.runs)).toBeLessThan(0.05);
});

test('out < single < double < triple < home run, in every state and on average', () => {
  const ordered: readonly Turn[] = ['out', 'single', 'double', 'triple', 'home_run'];
  const check = (values: EventValues) => {
    for (let k = 1; k < ordered.length; k += 1) {
      const [less, more] = [values[ordered[k - 1]], values[ordered[k]]];
      expect(more.neutral).toBeGreaterThan(less.neutral);
      more.byState.forEach((value, state) => {
        expect(value, `${ordered[k]} in state ${state}`).toBeGreaterThan(less.byState[state]);
      });
    }
  };
  check(lindsey(SIMPLE_ADVANCEMENT));
  check(usual('ground'));
  check(usual('air'));
});

test('values of a chain with its own rates average zero over the turns at bat', () => {
  const chain = halfInningChain(rates, SIMPLE_ADVANCEMENT);
  const values = eventValues({ runs: chain.runs, plays: chain.visits }, SIMPLE_ADVANCEMENT);
  for (let state = 0; state < 24; state += 1) {
    const mean = TURNS.reduce((sum, turn) => sum + rates[turn] * values[turn].byState[state], 0);
    expect(mean).toBeCloseTo(0, 12);
  }
});

const share = fc.double({ min: 0, max: 1, noNaN: true });
const pair = fc.tuple(share, share);
const anyRunning: fc.Arbitrary<BaseRunning> = fc.record({
  doubled: share,
  leadManOut: share,
  thirdOnOut: share,
  secondOnSingle: pair,
  firstToThird: pair,
  firstOnDouble: pair,
});

test('whatever the runners do, chances add up to one and every man is out, home or on base', () => {
  fc.assert(
    fc.property(anyRunning, fc.constantFrom<BallClass>('ground', 'air'), (running, ball) => {
      const advancement = advancementOn(ball, running);
      for (const turn of TURNS) {
        advancement[turn].forEach((ways, state) => {
          expect(ways.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
          for (const way of ways) expect(menAfter(way)).toBe(way.to === INNING_OVER ? -1 : menBefore(state));
        });
      }
    }),
    { numRuns: 30 },
  );
});

/** Outs, runs and runners together; the batter is one more. -1 once the inning is over. */
const menAfter = ({ to, runs }: Way) => (to === INNING_OVER ? -1 : (to >> 3) + runs + RUNNERS[to & 7]);
const menBefore = (state: number) => (state >> 3) + RUNNERS[state & 7] + 1;

test('without any play there are no values', () => {
  expect(() => eventValues({ runs: LINDSEY_1963_RUNS, plays: new Float64Array(24) }, SIMPLE_ADVANCEMENT)).toThrow(
    /24 weights are zero/,
  );
});
