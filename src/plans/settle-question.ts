import { MOVABLE_INFIELD, ON_FIRST, ON_SECOND, SIDES } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { SkillShift } from './chance-board.ts';
import type { PlanQuestion } from './plan-types.ts';
import type { PlanGrounds } from './prepare-plans.ts';
import { type PlanDepth, type SpotLimits, spotGrid } from './spot-limits.ts';

const OUTFIELD = [7, 8, 9] as const;

/** A question with everything in it settled. */
export interface Settled {
  readonly question: PlanQuestion;
  readonly batter: number;
  readonly team: number;
  readonly side: number;
  readonly state: number;
  readonly depth: PlanDepth;
  readonly hold: boolean;
  readonly batterToFirstS: number;
  readonly movers: readonly number[];
  /** By position - 1: index of the man, -1 for nobody known. */
  readonly men: Int32Array;
  readonly warnings: string[];
}

export function settle(grounds: PlanGrounds, question: PlanQuestion): Settled {
  const { table, grounders, air } = grounds.data;
  if (grounders === null && air === null)
    throw new ExpectedFailure(
      'data',
      'The book has no models to make a plan with.',
      'Build it first: leatherbook build --book DIR',
    );
  const batter = personIndex(grounds, question.batter, 'batter');
  const team = table.teams.indexOf(question.defence);
  if (team < 0)
    throw new ExpectedFailure(
      'data',
      `The book knows no club ${question.defence}.`,
      `Its clubs are ${table.teams.join(', ')}.`,
    );
  const warnings: string[] = [];
  const side = question.side === undefined ? usualSide(grounds, batter) : SIDES.indexOf(question.side);
  const { bases, outs } = question;
  const men = grounds.usualMen[team].slice();
  return {
    question,
    batter,
    team,
    side,
    state: outs * 8 + bases,
    ...howToPlay(question),
    batterToFirstS: Number.isNaN(grounds.runnerS[batter]) ? grounds.sideRunnerS[side] : grounds.runnerS[batter],
    movers: question.outfield ? [...MOVABLE_INFIELD, ...OUTFIELD] : MOVABLE_INFIELD,
    men,
    warnings,
  };
}

/** Depth and holding of a runner as asked for, or as is usual in the situation. */
export function howToPlay({ outs, bases, depth, hold }: Pick<PlanQuestion, 'outs' | 'bases' | 'depth' | 'hold'>): {
  readonly depth: PlanDepth;
  readonly hold: boolean;
} {
  const onFirst = (bases & ON_FIRST) !== 0;
  return {
    depth: depth ?? (onFirst && outs < 2 ? 'double-play' : 'usual'),
    hold: onFirst && (hold ?? (bases & ON_SECOND) === 0),
  };
}

export function personIndex(grounds: PlanGrounds, id: string, what: string): number {
  const index = grounds.data.table.people.indexOf(id);
  if (index >= 0) return index;
  throw new ExpectedFailure(
    'data',
    `The book knows no ${what} ${id}.`,
    'Look ids up with: leatherbook table plays --book DIR',
  );
}

function usualSide(grounds: PlanGrounds, batter: number): number {
  const { table } = grounds.data;
  let left = 0;
  const list = grounds.ofBatter.get(batter) ?? [];
  for (const k of list) if (table.batterSide[grounds.balls.row[k]] === 0) left += 1;
  return 2 * left > list.length ? 0 : 1;
}

/** Logit shifts of the men on the field; undefined for average men. */
export function skillsOf(grounds: PlanGrounds, { question }: Settled, men: Int32Array): SkillShift | undefined {
  if (!question.ownMen && question.swap === undefined) return undefined;
  const { skills, table } = grounds.data;
  if (skills === undefined)
    throw new ExpectedFailure(
      'data',
      'The book holds no ratings of its men, so a plan cannot reckon with them.',
      'Build it again with this release: leatherbook build --book DIR',
    );
  return (kind, position, ballClass) =>
    men[position - 1] < 0 ? 0 : skills.shiftOf(kind, position, table.people[men[position - 1]], ballClass);
}

/** Limits under which every man has at least one spot; what had to be given up for that is a warning. */
export function limitsOf(grounds: PlanGrounds, settled: Settled): SpotLimits {
  const { question, movers, side, warnings } = settled;
  const free = new Set<number>(question.anywhere ? movers : []);
  const limits: SpotLimits = {
    rule: question.rule,
    depth: settled.depth,
    hold: settled.hold,
    seen: (position) => (free.has(position) ? null : grounds.usual.seen(position, side)),
    batterToFirstS: settled.batterToFirstS,
  };
  for (const position of movers) {
    if (spotGrid(limits, position, 5, 200).length > 0) continue;
    free.add(position);
    warnings.push(
      `Nobody at position ${position} was seen where the rule and the situation want him: his spot is not bound to where others stood.`,
    );
    if (spotGrid(limits, position, 5, 200).length === 0)
      throw new ExpectedFailure(
        'usage',
        `Nothing is left for position ${position} under the rule, the depth and the runner to hold together.`,
        'Give up one of --rule, --depth and --hold.',
      );
  }
  return limits;
}
