import { workerData } from 'piscina';
import type { Outcome } from '../../jobs/jobs.ts';
import { replying } from '../../jobs/thread-pool.ts';
import type { Plan } from '../../plans/plan-types.ts';
import type { PlanGrounds } from '../../plans/prepare-plans.ts';
import { PlanSolver } from '../../plans/solve-plan.ts';
import { groundsFrom, type PlanInputs } from '../plan-inputs.ts';
import { type BatchQuestion, type BatterQuestions, planId } from './plan-units.ts';

/** A plan with its question, so that the answer by itself says what it answers. */
export interface PlanAnswered {
  readonly question: BatchQuestion;
  readonly plan: Plan;
}

/** What became of each of a batter's questions, in their order. */
export type BatterAnswer = readonly Outcome<PlanAnswered>[];

/** Made with the thread's first questions, and once: a module that waits while it is loaded cannot be required. */
let grounds: Promise<PlanGrounds> | undefined;

/** Answers all that is asked about one batter. Runs on a thread of its own (thread-pool.ts). */
export const answer = replying(async (questions: BatterQuestions): Promise<BatterAnswer> => {
  grounds ??= groundsFrom(workerData as PlanInputs);
  const solver = new PlanSolver(await grounds);
  const solve = replying((question: BatchQuestion): PlanAnswered => ({ question, plan: solver.solve(question) }));
  const outcomes: Outcome<PlanAnswered>[] = [];
  for (const question of questions) outcomes.push({ key: planId(question), ...(await solve(question)) });
  return outcomes;
});
