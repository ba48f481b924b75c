import { workerData } from 'piscina';
import { replying } from '../../jobs/thread-pool.ts';
import type { Plan } from '../../plans/plan-types.ts';
import type { PlanGrounds } from '../../plans/prepare-plans.ts';
import { solvePlan } from '../../plans/solve-plan.ts';
import { groundsFrom, type PlanInputs } from '../plan-inputs.ts';
import type { BatchQuestion } from './plan-units.ts';

/** A plan with its question, so that the answer by itself says what it answers. */
export interface PlanAnswered {
  readonly question: BatchQuestion;
  readonly plan: Plan;
}

/** Made with the thread's first question, and once: a module that waits while it is loaded cannot be required. */
let grounds: Promise<PlanGrounds> | undefined;

/** Runs on a thread of its own (thread-pool.ts). */
export const answer = replying(async (question: BatchQuestion): Promise<PlanAnswered> => {
  grounds ??= groundsFrom(workerData as PlanInputs);
  return { question, plan: solvePlan(await grounds, question) };
});
