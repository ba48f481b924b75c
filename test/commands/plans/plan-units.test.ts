import { expect, test } from 'vitest';
import { batterUnits, planId, planUnits } from '../../../src/commands/plans/plan-units.ts';

const situations = [
  { outs: 0, bases: 0 },
  { outs: 1, bases: 5 },
];
const shared = { defence: 'Quillmouth', rule: 'two-a-side' } as const;
const plans = planUnits(
  [
    { batter: 'a', side: 'L' },
    { batter: 'b', side: 'R' },
    { batter: 'a', side: 'R' },
  ],
  situations,
  shared,
);

test('what is asked about one batter from one side is a unit, in the order of the questions; the other side is another man', () => {
  const units = batterUnits(plans);
  expect(units.map(({ question }) => question.map(({ batter, side, outs }) => `${batter}${side}${outs}`))).toEqual([
    ['aL0', 'aL1'],
    ['bR0', 'bR1'],
    ['aR0', 'aR1'],
  ]);
  expect(units.flatMap(({ question }) => question.map(planId))).toEqual(plans.map(({ key }) => key));
});

test('a unit is known by its questions: what is left of it is another', () => {
  const keys = (some: typeof plans) => batterUnits(some).map(({ key }) => key);
  expect(keys(plans)).toEqual(keys([...plans]));
  expect(new Set(keys(plans)).size).toBe(3);
  expect(keys(plans.slice(1))[0]).not.toBe(keys(plans)[0]);
  expect(keys(plans.slice(1)).slice(1)).toEqual(keys(plans).slice(1));
});
