import { test } from 'vitest';
import { demoText } from '../../src/cli/demo-text.ts';
import type { DemoReport } from '../../src/commands/demo.ts';
import { expectGolden } from '../helpers/golden.ts';

const fielder = (name: string, team: string, position: number, outs: number) => ({
  name,
  team,
  position,
  chances: 210.4,
  outs,
  runs: outs * 0.75,
  runs_se: 2.34,
});

const sum = (season: number, name: string, outs: number, ballClass = 'ground') => ({
  season,
  ball_class: ballClass,
  mark_or_kind: name,
  total_outs: outs,
  logit_shift: 0.01,
});

const REPORT = {
  book: 'demo-book',
  steps: [
    { name: 'simulate', seconds: 12.34 },
    { name: 'build', seconds: 21 },
  ],
  warnings: ['Something is off.'],
  tables: {
    balance: [
      sum(2031, 'opening', 8123, 'ground, full'),
      sum(2031, 'closed', 8123, 'ground, full'),
      sum(2031, 'closed', 300, 'ground, whole'),
      sum(2031, 'placement', -0.00001),
      sum(2032, 'closed', 8088, 'ground, full'),
      sum(2032, 'placement', 0.04),
      sum(2032, 'reach', -0.2),
    ],
    season: 2032,
    fielders: {
      placement: [fielder('Ada Quill', 'Marsh End', 6, 9.25), fielder('Bo Tarn', 'Alder Bend', 4, -7.75)],
      reach: [fielder('Cy Rook', 'Marsh End', 5, 14.5)],
      finish: [],
    },
    teams: [
      {
        team: 'Marsh End',
        plays: 2100,
        placement_outs: 4.25,
        reach_outs: -1.75,
        finish_outs: 0,
        ground_outs: 0.5,
        net_outs: 3,
        net_runs: 2.25,
        net_runs_se: 5.06,
      },
    ],
    playToExplain: 'g12-034',
  },
} as unknown as DemoReport;

test('the demo prints its tables, one play, its time and what to try next', () => {
  expectGolden('demo', demoText(REPORT, 'The story of a play.\n'));
});
