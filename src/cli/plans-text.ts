import type { PlanManyReport } from '../commands/plan-many.ts';
import { OUTS_WORDS, sayRunners } from '../plans/say-plan.ts';
import { textTable } from './text-table.ts';

/** Many plans, a line each, and how many of them were new. */
export function plansText({ plans, made, names, failures }: PlanManyReport): string {
  const nameOf = (id: string) => names.get(id) ?? id;
  const rows = plans.map(({ plan }) => {
    const { value, lo80, hi80 } = plan.gain_runs_per_100;
    const situation = `${OUTS_WORDS[plan.outs]}, ${sayRunners(plan.runners)}`;
    return [nameOf(plan.batter), plan.side, situation, plan.balls, value, lo80, hi80, plan.warnings.length || null];
  });
  const table = textTable(
    [
      { name: 'batter' },
      { name: 'side' },
      { name: 'situation' },
      { name: 'balls seen' },
      { name: 'gain', decimals: 1, signed: true },
      { name: '80 % from', decimals: 1, signed: true },
      { name: 'to', decimals: 1, signed: true },
      { name: 'to mind' },
    ],
    rows,
  );
  const kept = plans.length - made;
  return [
    plans.length === 0 ? '' : table,
    'Gain: runs per 100 balls of his against the even spots. To mind: warnings on the plan; its card and JSON have them in words.',
    `${plans.length} plans, ${made} of them made now${kept > 0 ? ` and ${kept} kept from before` : ''}; all are in the tables plans and plan_starts.`,
    ...(failures.length > 0 ? [`${failures.length} could not be made.`] : []),
    '',
  ].join('\n');
}
