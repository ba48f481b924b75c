import { workerData } from 'piscina';
import { replying } from '../../jobs/thread-pool.ts';
import type { Plan } from '../../plans/plan-types.ts';
import { PlanSolver } from '../../plans/solve-plan.ts';
import { groundsFrom, type PlanInputs } from '../plan-inputs.ts';
import type { BatchQuestion } from './plan-units.ts';

/** A plan with its question, so that the answer by itself says what it answers. */
export interface PlanAnswered {
  readonly question: BatchQuestion;
  readonly plan: Plan;
}

/** Made with the thread's first question, and once: a module that waits while it is loaded cannot be required. */
let solver: Promise<PlanSolver> | undefined;

/** Runs on a thread of its own (thread-pool.ts). */
export const answer = replying(async (question: BatchQuestion): Promise<PlanAnswered> => {
  solver ??= groundsFrom(workerData as PlanInputs).then((grounds) => new PlanSolver(grounds));
  return { question, plan: (await solver).solve(question) };
});
