import { expect, test } from 'vitest';
import { explanationText } from '../../src/cli/explanation-text.ts';
import type { Explanation } from '../../src/commands/explain.ts';
import { expectGolden } from '../helpers/golden.ts';

const NONE = Number.NaN;

const FULL: Explanation = {
  playId: 'g7-012',
  date: '2032-05-01',
  inning: 4,
  outsBefore: 1,
  bases: 1,
  battingTeam: 'Alder Bend',
  fieldingTeam: 'Marsh End',
  batter: 'Ada Quill',
  batterSide: 'L',
  exitSpeedMph: 88.4,
  bearingDeg: -16.2,
  ballKind: 'ground',
  launchAngleDeg: -7.6,
  batterToFirstS: 4.27,
  result: 'fielders_choice',
  alignment: {
    name: 'overshift',
    rightSideInfielders: 3,
    twoASide: {
      legal: false,
      reason: 'two infielders must stand on each side of second base: 1 stand left of it, 3 right',
    },
  },
  grade: 'full',
  flags: '',
  marks: { opening: 0.61234, openingDirect: 0.6, set: 0.7421, gathered: 0.91, closed: 1, stakeRuns: 0.75 },
  opening: {
    low: 0.2104,
    high: 0.955,
    lenders: [
      { playId: 'g1-001', date: '2031-06-30', team: 'Reed Ferry', bearingDeg: -14.2 },
      { playId: 'g2-040', date: '2032-04-02', team: 'Thorn', bearingDeg: -19.9 },
      { playId: 'g2-044', date: '2032-04-02', team: 'Thorn', bearingDeg: -16.2 },
    ],
  },
  defenders: [
    {
      position: 1,
      startXFt: 0,
      startYFt: 55,
      evenXFt: NONE,
      evenYFt: NONE,
      gapFt: -15.3,
      runInFt: NONE,
      runAcrossFt: NONE,
      arrivalS: 0.44,
      reach: 0.02,
      promise: 0.9,
      setWithoutHim: 0.7398,
      fielderId: 'p1',
      name: 'Bo Tarn',
    },
    {
      position: 6,
      startXFt: -38,
      startYFt: 141,
      evenXFt: -42.4,
      evenYFt: 142,
      gapFt: 0.4,
      runInFt: NONE,
      runAcrossFt: NONE,
      arrivalS: 1.31,
      reach: 0.78,
      promise: 0.93,
      setWithoutHim: 0.004,
      fielderId: 'p6',
      name: null,
    },
    {
      position: 3,
      startXFt: 66,
      startYFt: 95,
      evenXFt: 62,
      evenYFt: 100,
      gapFt: 90,
      runInFt: NONE,
      runAcrossFt: NONE,
      arrivalS: 0.9,
      reach: 0,
      promise: 0,
      setWithoutHim: 0.7421,
      fielderId: 'p3',
      name: 'Cy Rook',
    },
  ],
  gather: {
    position: 6,
    name: null,
    xFt: -37,
    yFt: 131,
    timeS: 1.22,
    target: '2B',
    targetRecorded: false,
    timeLeftS: 1.87,
    throwFt: 49.4,
  },
  touchedBy: 6,
  entries: [
    { position: 6, name: 'p6', kind: 'placement', outs: 0.12976, runs: 0.09732 },
    { position: 6, name: 'p6', kind: 'reach', outs: 0.1679, runs: 0.125925 },
    { position: 6, name: 'p6', kind: 'finish', outs: 0.09, runs: 0.0675 },
  ],
};

const GROUND: Explanation = {
  ...FULL,
  alignment: {
    name: null,
    rightSideInfielders: null,
    twoASide: { legal: null, reason: 'the start of the shortstop was not seen' },
  },
  grade: 'ground',
  flags: 'no_bearing no_starts',
  bearingDeg: NONE,
  exitSpeedMph: NONE,
  launchAngleDeg: NONE,
  bases: 0,
  outsBefore: 2,
  result: 'single',
  marks: { ...FULL.marks, set: NONE, gathered: 0, closed: 0 },
  defenders: [],
  gather: null,
  touchedBy: 5,
  entries: [{ position: 5, name: 'Di Oak', kind: 'ground', outs: -0.61234, runs: -0.459255 }],
};

const WHOLE: Explanation = {
  ...GROUND,
  alignment: {
    name: 'straight-up',
    rightSideInfielders: 2,
    twoASide: { legal: true, reason: 'two on each side of second base' },
  },
  grade: 'whole',
  flags: 'later_placements',
  bearingDeg: 43,
  exitSpeedMph: 71,
  launchAngleDeg: -20,
  result: 'out',
  marks: { ...FULL.marks, set: NONE, gathered: NONE },
  opening: { low: NONE, high: NONE, lenders: [] },
  touchedBy: 0,
  entries: [{ position: 3, name: null, kind: 'whole', outs: 0.38766, runs: 0.290745 }],
};

test('a full play, one without starts and one of which only the result is known', () => {
  expectGolden('explanation', [FULL, GROUND, WHOLE].map(explanationText).join('\n==========\n\n'));
});

test('no number that is not there gets onto the page', () => {
  for (const each of [FULL, GROUND, WHOLE]) expect(explanationText(each)).not.toMatch(/NaN|undefined|null/);
});

test('words give the side on which the ball passes a man who faces home', () => {
  const at = (gapFt: number) => explanationText({ ...FULL, defenders: [{ ...FULL.defenders[1]!, gapFt }] });
  expect(at(12)).toContain('12 ft to his left');
  expect(at(-12)).toContain('12 ft to his right');
  expect(at(0.9)).toContain('straight at him');
});

test.each([
  [-44, 'down the third-base line'],
  [-25, 'in the hole between third and short'],
  [0, 'up the middle'],
  [25, 'in the hole between first and second'],
  [44.5, 'down the first-base line'],
])('a bearing of %f is %s', (bearingDeg, words) => {
  expect(explanationText({ ...FULL, bearingDeg })).toContain(words);
});
