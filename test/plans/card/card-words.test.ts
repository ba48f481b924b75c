import { expect, it } from 'vitest';
import { cardWords } from '../../../src/plans/card/card-words.ts';
import { cardPlan } from '../../helpers/card-plan.ts';

it('says the situation', () => {
  const situation = (outs: number, runners: string) => cardWords(cardPlan({ outs, runners }), new Map()).situation;
  expect(situation(0, '---')).toBe('Nobody out, nobody on');
  expect(situation(1, '-2-')).toBe('One out, runner on second');
  expect(situation(2, '1-3')).toBe('Two out, runners on first and third');
  expect(situation(2, '123')).toBe('Two out, bases loaded');
});

it('says what the plan is worth with its interval and its evidence', () => {
  const words = cardWords(cardPlan(), new Map([['b1', 'Nolvem Zanrimont']]));
  expect(words.title).toBe('Nolvem Zanrimont');
  expect(words.rule).toBe('bats left, against Maplegarth, two a side');
  expect(words.gain).toBe('+1.4 runs per 100 balls against the even spots (80 %: -0.2 to +3.1)');
  expect(words.evidence).toBe('143 of his balls seen from this side');
  expect(words.men.map(({ name }) => name)).toEqual(['f3', 'f4', 'Third', 'f6']);
});

it('puts no sign before nothing', () => {
  const { gain } = cardWords(cardPlan({ gain_runs_per_100: { value: -0.02, lo80: -0.04, hi80: 0.04 } }), new Map());
  expect(gain).toBe('0.0 runs per 100 balls against the even spots (80 %: 0.0 to 0.0)');
});
