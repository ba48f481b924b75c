import { planPicture } from '../plans/plan-picture.ts';
import type { Plan } from '../plans/plan-types.ts';
import { sayMove } from '../plans/say-move.ts';
import { OUTS_WORDS, sayGain, sayRunners, signed } from '../plans/say-plan.ts';
import { textTable } from './text-table.ts';

/** A plan for a coach: the drawing, each man's spot and move, what it is worth, and what to mind. */
export function planText(plan: Plan, nameOf: (id: string) => string): string {
  return [
    `Against ${nameOf(plan.batter)}, batting ${plan.side === 'L' ? 'left' : 'right'}: ${plan.defence}, ${OUTS_WORDS[plan.outs]}, ${sayRunners(plan.runners)}`,
    `${plan.rule === 'open' ? 'No placement rule' : 'Two a side'}; ${plan.balls} of his balls were seen`,
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
