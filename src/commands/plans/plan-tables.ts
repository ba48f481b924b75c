import type { KeptPlans } from '../../book/keep-plans.ts';
import { OUTGOING_TABLES } from '../../book/schema.ts';
import { quoteText } from '../../book/sql-text.ts';
import type { Cell, Column, ColumnTable, Store } from '../../book/store.ts';
import type { Plan, PlannedStart } from '../../plans/plan-types.ts';
import { type BatchQuestion, questionText } from './plan-units.ts';

/** A plan that is in a book, or about to be. */
export interface KeptPlan {
  /** Names the question (plan-units.ts). */
  readonly id: string;
  readonly question: BatchQuestion;
  readonly plan: Plan;
  /** Build of the book that it was made on. */
  readonly buildId: string;
}

type Row = Record<string, Cell>;

/** Plans as rows of the tables `plans` and `plan_starts`. */
export function toPlanTables(kept: readonly KeptPlan[]): KeptPlans {
  return {
    plans: columnsOf('plans', kept.map(planRow)),
    starts: columnsOf('plan_starts', kept.flatMap(startRows)),
  };
}

function planRow({ id, question, plan, buildId }: KeptPlan): Row {
  const gain = plan.gain_runs_per_100;
  return {
    plan_id: id,
    batter_id: plan.batter,
    side: plan.side,
    defence: plan.defence,
    outs: plan.outs,
    runners: plan.runners,
    rule: plan.rule,
    balls: plan.balls,
    outs_per_100_plan: plan.outs_per_100.plan,
    outs_per_100_even: plan.outs_per_100.even,
    outs_per_100_own: plan.outs_per_100.own,
    runs_per_100_plan: plan.runs_per_100.plan,
    runs_per_100_even: plan.runs_per_100.even,
    runs_per_100_own: plan.runs_per_100.own,
    gain_runs_per_100: gain.value,
    gain_runs_per_100_lo80: gain.lo80,
    gain_runs_per_100_hi80: gain.hi80,
    warnings: plan.warnings.length === 0 ? null : plan.warnings.join('\n'),
    settings: questionText(question),
    build_id: buildId,
  };
}

function startRows({ id, plan }: KeptPlan): Row[] {
  const errors = new Map(plan.cost_of_error.map((error) => [error.position, error]));
  return plan.starts.map((start) => ({
    plan_id: id,
    ...start,
    error_ft: errors.get(start.position)?.feet ?? null,
    error_runs_per_100: errors.get(start.position)?.runs_per_100 ?? null,
  }));
}

function columnsOf(table: 'plans' | 'plan_starts', rows: readonly Row[]): ColumnTable {
  const columns = OUTGOING_TABLES[table].columns.map(({ name, type }): Column => {
    const cells = rows.map((row) => row[name] ?? null);
    if (type === 'text') return { name, type, values: cells as (string | null)[] };
    return { name, type, values: Float64Array.from(cells, (cell) => (cell === null ? Number.NaN : Number(cell))) };
  });
  return { rowCount: rows.length, columns };
}

/** The plans of a book by id; those of `ids` only, when given. */
export async function readPlans(store: Store, ids?: readonly string[]): Promise<Map<string, KeptPlan>> {
  const plans = new Map<string, KeptPlan>();
  const starts = new Map<string, Row[]>();
  const where = ids === undefined ? '' : ` WHERE plan_id IN (${ids.map(quoteText).join(', ')})`;
  if (ids?.length === 0) return plans;
  for (const row of await store.rows(`SELECT * FROM plan_starts${where} ORDER BY plan_id, position`)) {
    const id = row.plan_id as string;
    starts.set(id, [...(starts.get(id) ?? []), row]);
  }
  for (const row of await store.rows(`SELECT * FROM plans${where}`)) {
    const id = row.plan_id as string;
    const question: BatchQuestion = JSON.parse(row.settings as string);
    plans.set(id, { id, question, plan: planOf(row, starts.get(id) ?? []), buildId: row.build_id as string });
  }
  return plans;
}

function planOf(row: Row, starts: readonly Row[]): Plan {
  const amounts = (what: string) => ({
    plan: row[`${what}_plan`] as number,
    even: row[`${what}_even`] as number,
    own: row[`${what}_own`] as number,
  });
  return {
    batter: row.batter_id as string,
    side: row.side as Plan['side'],
    defence: row.defence as string,
    outs: row.outs as number,
    runners: row.runners as string,
    rule: row.rule as Plan['rule'],
    balls: row.balls as number,
    starts: starts.map(startOf),
    outs_per_100: amounts('outs_per_100'),
    runs_per_100: amounts('runs_per_100'),
    gain_runs_per_100: {
      value: row.gain_runs_per_100 as number,
      lo80: row.gain_runs_per_100_lo80 as number,
      hi80: row.gain_runs_per_100_hi80 as number,
    },
    cost_of_error: starts
      .filter((start) => start.error_ft !== null)
      .map((start) => ({
        position: start.position as number,
        feet: start.error_ft as number,
        runs_per_100: start.error_runs_per_100 as number,
      })),
    warnings: row.warnings === null ? [] : (row.warnings as string).split('\n'),
  };
}

function startOf(row: Row): PlannedStart {
  const feet = (name: string) => row[name] as number;
  return {
    position: row.position as number,
    fielder_id: row.fielder_id as string | null,
    start_x_ft: feet('start_x_ft'),
    start_y_ft: feet('start_y_ft'),
    even_x_ft: feet('even_x_ft'),
    even_y_ft: feet('even_y_ft'),
    own_x_ft: feet('own_x_ft'),
    own_y_ft: feet('own_y_ft'),
  };
}
