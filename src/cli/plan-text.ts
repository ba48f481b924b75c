import { ON_FIRST } from '../diamond/play-codes.ts';
import { planPicture } from '../plans/plan-picture.ts';
import type { Plan, PlanQuestion } from '../plans/plan-types.ts';
import { sayMove } from '../plans/say-move.ts';
import { OUTS_WORDS, sayGain, sayRunners, signed } from '../plans/say-plan.ts';
import { howToPlay } from '../plans/settle-question.ts';
import { textTable } from './text-table.ts';

/** What of its question a plan itself does not say. */
export type Asked = Pick<
  PlanQuestion,
  'outs' | 'bases' | 'depth' | 'hold' | 'ownMen' | 'swap' | 'pitcher' | 'anywhere'
>;

/** A plan for a coach: what was asked, the drawing, each man's spot and move, what it is worth, and what to mind. */
export function planText(plan: Plan, asked: Asked, nameOf: (id: string) => string): string {
  return [
    `Against ${nameOf(plan.batter)}, batting ${plan.side === 'L' ? 'left' : 'right'}: ${plan.defence}, ${OUTS_WORDS[plan.outs]}, ${sayRunners(plan.runners)}`,
    [plan.rule === 'open' ? 'No placement rule' : 'Two a side', ...sayAsked(asked, nameOf)].join(', '),
    `${plan.balls} of his balls were seen`,
    '',
    planPicture(plan),
    'Numbers: planned starts; o: even spots; x: where the club usually stands; #: bases',
    '',
    menText(plan, nameOf),
    amountsText(plan),
    `Gain: ${sayGain(plan)}`,
    ...(plan.swap ?? []).map(
      ({ position, fielder_id, instead_of, gain_runs_per_100: gain }) =>
        `With ${nameOf(fielder_id)} at ${position}${instead_of === null ? '' : ` in place of ${nameOf(instead_of)}`}: ${signed(gain.value)} runs per 100 balls more (80 %: ${signed(gain.lo80)} to ${signed(gain.hi80)})`,
    ),
    ...plan.warnings.map((warning) => `Mind: ${warning}`),
    '',
  ].join('\n');
}

function sayAsked(asked: Asked, nameOf: (id: string) => string): string[] {
  const { depth, hold } = howToPlay(asked);
  const ways: readonly (readonly [boolean | undefined, string])[] = [
    [depth === 'double-play', 'double-play depth'],
    [depth === 'in', 'infield in'],
    [(asked.bases & ON_FIRST) !== 0, hold ? 'the runner held' : 'the runner not held'],
    [asked.anywhere, 'also where nobody was seen'],
    [asked.ownMen === true || asked.swap !== undefined, "the club's own men"],
    [asked.pitcher !== undefined, `off ${nameOf(asked.pitcher ?? '')}`],
  ];
  return ways.flatMap(([so, words]) => (so ? [words] : []));
}

function menText(plan: Plan, nameOf: (id: string) => string): string {
  const costs = new Map(plan.cost_of_error.map((each) => [each.position, each.runs_per_100]));
  return textTable(
    [
      { name: 'pos' },
      { name: 'name' },
      { name: 'x', decimals: 0 },
      { name: 'y', decimals: 0 },
      { name: 'from the even spot' },
      { name: 'from the usual start' },
      { name: 'a yard off costs', decimals: 2 },
    ],
    plan.starts.map((s) => [
      s.position,
      s.fielder_id === null ? null : nameOf(s.fielder_id),
      s.start_x_ft,
      s.start_y_ft,
      sayMove(s.even_x_ft, s.even_y_ft, s.start_x_ft, s.start_y_ft),
      sayMove(s.own_x_ft, s.own_y_ft, s.start_x_ft, s.start_y_ft),
      costs.get(s.position) ?? null,
    ]),
  );
}

function amountsText({ outs_per_100: outs, runs_per_100: runs }: Plan): string {
  return textTable(
    [
      { name: 'per 100 balls' },
      { name: 'planned', decimals: 1 },
      { name: 'even', decimals: 1 },
      { name: 'usual', decimals: 1 },
    ],
    [
      ['outs', outs.plan, outs.even, outs.own],
      ['runs above an out', runs.plan, runs.even, runs.own],
    ],
  );
}
