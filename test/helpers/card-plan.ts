import type { CardPlan } from '../../src/plans/card/card-words.ts';

type Spot = readonly [xFt: number, yFt: number];

const man = (position: number, fielder_id: string | null, start: Spot, even: Spot): CardPlan['starts'][number] => ({
  position,
  fielder_id,
  start_x_ft: start[0],
  start_y_ft: start[1],
  even_x_ft: even[0],
  even_y_ft: even[1],
});

/** An invented plan for tests of cards. */
export function cardPlan(more: Partial<CardPlan> = {}): CardPlan {
  return {
    batter: 'b1',
    side: 'L',
    defence: 'Maplegarth',
    outs: 1,
    runners: '1-3',
    rule: 'two-a-side',
    balls: 143,
    starts: [
      man(3, 'f3', [72, 88], [68, 92]),
      man(4, 'f4', [48, 140], [36, 138]),
      man(5, null, [-60, 95], [-66, 98]),
      man(6, 'f6', [-12, 150], [-34, 142]),
    ],
    gain_runs_per_100: { value: 1.43, lo80: -0.21, hi80: 3.07 },
    warnings: [],
    ...more,
  };
}
