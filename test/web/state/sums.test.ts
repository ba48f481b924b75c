import { expect, test } from 'vitest';
import { climbEntries, stackEntries } from '../../../web/charts/entry-stack.ts';
import { kindRows, markRows } from '../../../web/state/balance-rows.ts';
import { HALF_80, halfWidthOf, per100Chances, shownKinds } from '../../../web/state/entry-sums.ts';
import { binOnField } from '../../../web/state/field-bins.ts';
import { chance, percent, plain, signed } from '../../../web/state/number-text.ts';
import { reliabilityWords } from '../../../web/state/reliability-words.ts';
import { takeTogether } from '../../../web/state/sum-rows.ts';

test('numbers are written with a real minus, a rounded zero without a sign', () => {
  expect([signed(1.25), signed(-1.26), signed(-0.04), signed(null), plain(-3, 0)]).toEqual([
    '+1.3',
    '\u22121.3',
    '0.0',
    '',
    '\u22123',
  ]);
  expect([chance(0.44), chance(1), chance(0), chance(0.9999), percent(0.934)]).toEqual(['.440', '1', '0', '1', '93 %']);
});

test('a bar has gains right and losses left of zero; a staircase goes from 0 to the sum', () => {
  const entries = [
    { kind: 'placement', value: 2 },
    { kind: 'reach', value: -3 },
    { kind: 'finish', value: 1 },
  ];
  expect(stackEntries(entries).map(({ from, to }) => [from, to])).toEqual([
    [0, 2],
    [0, -3],
    [2, 3],
  ]);
  expect(climbEntries(entries).map(({ from, to }) => [from, to])).toEqual([
    [0, 2],
    [2, -1],
    [-1, 0],
  ]);
});

test('a man’s rows at two clubs add up, their errors in square; an unknown error stays unknown', () => {
  const total = takeTogether([
    { net_runs: 3, net_runs_se: 3, reach_runs: 1, reach_runs_se: null, chances: 40, plays: 90 },
    { net_runs: -1, net_runs_se: 4, reach_runs: 1, reach_runs_se: 1, chances: 10, plays: 30 },
  ]);
  expect(total).toMatchObject({
    net_runs: 2,
    net_runs_se: 5,
    reach_runs: 2,
    reach_runs_se: null,
    chances: 50,
    plays: 120,
  });
  expect(halfWidthOf(total, 'net', 'runs')).toBeCloseTo(5 * HALF_80, 12);
});

test('rates are by 100 chances, errors with them; nobody without chances has one', () => {
  const row = per100Chances({ name: 'A', chances: 50, net_runs: 2, net_runs_se: 1, share_full: 0.9 });
  expect(row).toEqual({ name: 'A', chances: 50, net_runs: 4, net_runs_se: 2, share_full: 0.9 });
  expect(per100Chances({ chances: 0, net_runs: 2 }).net_runs).toBe(null);
  expect(per100Chances({ chances: 0.3, net_runs: 2 }).net_runs).toBe(null);
  expect(shownKinds([{ turn_runs: 0.04 }, { ground_runs: -0.3 }], 'runs')).toEqual([
    'placement',
    'reach',
    'finish',
    'ground',
  ]);
});

test('the balance sheet has a row a kind of ball and grade, with the largest shift of its marks', () => {
  const balance = [
    { ball_class: 'ground, full', mark_or_kind: 'opening', total_outs: 10, logit_shift: 0.02, plays: 20 },
    { ball_class: 'ground, full', mark_or_kind: 'set', total_outs: 10, logit_shift: -0.4, plays: 20 },
    { ball_class: 'ground, full', mark_or_kind: 'closed', total_outs: 10, logit_shift: null, plays: 20 },
    { ball_class: 'ground, turn', mark_or_kind: 'gathered', total_outs: 4, logit_shift: 9, plays: 8 },
    { ball_class: 'ground', mark_or_kind: 'reach', total_outs: 1e-12, logit_shift: null, plays: 20 },
  ];
  expect(markRows(balance)).toEqual([
    { ball_class: 'ground, full', plays: 20, opening: 10, set: 10, closed: 10, largest_shift: -0.4 },
  ]);
  expect(kindRows(balance)).toEqual([{ ball_class: 'ground', plays: 20, reach: 1e-12 }]);
});

test('reliability is said for the largest threshold that the man reaches, seasons before halves', () => {
  const row = (method: string, minChances: number, r: number, n = 30) => ({
    kind: 'reach',
    position: 6,
    method,
    min_chances: minChances,
    n,
    r,
    lo95: r - 0.2,
    hi95: r + 0.1,
    spearman_brown: method === 'split_half' ? (2 * r) / (1 + r) : null,
  });
  const rows = [
    row('year_to_year', 0, 0.3),
    row('year_to_year', 100, 0.72),
    row('year_to_year', 400, 0.9),
    row('split_half', 100, 0.5),
  ];
  expect(reliabilityWords(rows, 'reach', 'Shortstops', 250)).toBe(
    'reach of shortstops with 100 chances or more correlates from one season to the next at 0.72 (95\u00a0%: 0.52 to 0.82; 30 pairs of seasons): mostly the man.',
  );
  expect(reliabilityWords(rows.slice(3), 'reach', 'Shortstops', 250)).toMatch(
    /between the two halves of a season, scaled to a whole one, at 0\.67 \(halves: 0\.50, 95\u00a0%: 0\.30 to 0\.60; 30 men\): too few to say how much of it is the man/,
  );
  expect(reliabilityWords([row('year_to_year', 0, 0.9, 2)], 'reach', 'Shortstops', 250)).toBe(null);
  expect(reliabilityWords(rows, 'finish', 'Shortstops', 250)).toBe(null);
});

test('what is binned on the field loses no run, and leaves out only what has no place', () => {
  const spots = [
    { xFt: 1, yFt: 100, runs: 0.5 },
    { xFt: 3, yFt: 102, runs: -0.2 },
    { xFt: -40, yFt: 120, runs: 0.1 },
    { xFt: null, yFt: 120, runs: 9 },
  ];
  const bins = binOnField(spots, 12);
  expect(bins).toEqual([
    { xFt: 2, yFt: 101, plays: 2, runs: 0.3 },
    { xFt: -40, yFt: 120, plays: 1, runs: 0.1 },
  ]);
});
