import type { CardPlan } from '../../src/plans/card/card-words.ts';
import type { PlanModels } from '../../src/plans/chance-board.ts';
import type { PlanCase } from '../../src/plans/plan-case.ts';
import type { Plan } from '../../src/plans/plan-types.ts';
import type { PlanAnswer, PlanCaseAnswer, ViewAnswer } from '../../src/server/answers.ts';
import { addressOf, type Filters } from '../state/address.ts';
import { numberOf } from '../state/entry-sums.ts';
import { rowsOf } from '../state/table/remote-rows.ts';
import { askServer, ServerFailure, tellServer, tellServerForFile } from './ask-server.ts';
import { readModels } from './plays.ts';

export interface Batter {
  readonly id: string;
  readonly name: string;
  /** The club of his latest ball. */
  readonly team: string;
  /** Balls that he put in play. */
  readonly balls: number;
}

/** Everybody who bats, by club; throws ServerFailure. */
export async function readBatters(): Promise<Batter[]> {
  const rows = rowsOf(await askServer<ViewAnswer>('/api/batters'));
  return rows.map((row) => ({
    id: String(row.batter_id),
    name: String(row.name ?? row.batter_id),
    team: String(row.team ?? ''),
    balls: (numberOf(row, 'balls_left') ?? 0) + (numberOf(row, 'balls_right') ?? 0),
  }));
}

/** A question and what its starts are priced with. */
export interface Priced {
  readonly planCase: PlanCase;
  readonly models: PlanModels;
}

/** `words` are those of the question in an address (server/plan-question.ts); throws ServerFailure. */
export async function readPlanCase(words: Filters): Promise<Priced> {
  const { planCase, version } = await askServer<PlanCaseAnswer>(addressOf(['api', 'plan'], words));
  const [ground, air] = await Promise.all([
    modelsIfAny(() => readModels('ground', version)),
    modelsIfAny(() => readModels('air', version)),
  ]);
  return {
    planCase,
    models: {
      grounders: ground?.ballClass === 'ground' ? ground.infield : null,
      air: air?.ballClass === 'air' ? air : null,
    },
  };
}

/** Null for a book that was built without any such ball. */
async function modelsIfAny<T>(read: () => Promise<T>): Promise<T | null> {
  try {
    return await read();
  } catch (thrown) {
    if (thrown instanceof ServerFailure && thrown.kind === 'missing') return null;
    throw thrown;
  }
}

/** The best starts that are found; throws ServerFailure. */
export async function askForPlan(words: Filters): Promise<Plan> {
  return (await tellServer<PlanAnswer>(addressOf(['api', 'plan'], words))).plan;
}

/** A pocket card as a PDF; throws ServerFailure. */
export async function askForCard(card: CardPlan): Promise<Blob> {
  return await tellServerForFile('/api/plan/card', card);
}
