import { SIDES } from '../diamond/play-codes.ts';
import type { BatterCase } from './batter-case.ts';
import { beginnings } from './beginnings.ts';
import { ChanceBoard } from './chance-board.ts';
import type { WeightedBalls } from './draw-balls.ts';
import { type StartQuestion, standMen } from './grid-search.ts';
import { Judge } from './judge-plan.ts';
import { leastTimeS, SAFE_S, sayTooNear } from './least-time.ts';
import { type Plan, type PlanQuestion, runnersText } from './plan-types.ts';
import { type Posed, poseQuestion } from './pose-question.ts';
import { type PlanGrounds, stakesOfBalls } from './prepare-plans.ts';
import { searchStarts } from './search-starts.ts';
import { limitsOf, type Settled, skillsOf } from './settle-question.ts';
import { swapGains } from './swap-gains.ts';

const RANDOM_BEGINNINGS = 4;
/** How far off a man is when the cost of an error is asked: a yard. */
const ERROR_FT = 3;
const DIRECTIONS = 8;
const PER = 100;
/** A move has to gain this much a foot, runs a ball: 0.003 runs per 100 balls. Our setting; far below what any plan gains. */
const MOVE_COST = 0.003 / PER;

/**
 * Where to stand against one batter in one situation (method.md 12): the starts under which an average defence, or the club's own
 * men, would allow the fewest runs on the balls that he is likely to hit, what they are worth against the even spots and the
 * club's own, and how sure that is. The same question gives the same plan.
 * @throws ExpectedFailure `data`: batter, pitcher or club is not in the book, or it has no models, or no ratings for own men
 */
export function solvePlan(grounds: PlanGrounds, question: PlanQuestion): Plan {
  return planFor(grounds, poseQuestion(grounds, question));
}

/** Makes one plan after another, each as `solvePlan` makes it, and cheaper when the one before was against the same batter. */
export class PlanSolver {
  private readonly grounds: PlanGrounds;
  private last: BatterCase | undefined;

  constructor(grounds: PlanGrounds) {
    this.grounds = grounds;
  }

  solve(question: PlanQuestion): Plan {
    const posed = poseQuestion(this.grounds, question, this.last);
    this.last = posed.batterCase;
    return planFor(this.grounds, posed);
  }
}

function planFor(grounds: PlanGrounds, { settled, batterCase, even, own }: Posed): Plan {
  const { question, side, state, movers, warnings } = settled;
  const { sample, judging, random } = batterCase;
  const { table } = grounds.data;
  const limits = limitsOf(grounds, settled);

  const solveWith = (men: Int32Array) => {
    const shiftOf = skillsOf(grounds, settled, men);
    const board = new ChanceBoard(grounds.data, sample, settled, shiftOf);
    const worth = worthOf(grounds, sample, state);
    const asked = { board, worth, others: even, moveCost: MOVE_COST, movers, limits };
    const found = searchStarts(asked, beginnings(even, own), RANDOM_BEGINNINGS, random.fork('search'));
    return { ...found, asked, shiftOf };
  };
  const found = solveWith(settled.men);
  const stakes = stakesOfBalls(grounds, judging, state);
  const judge = new Judge(grounds.data, settled, judging, stakes, batterCase.judgedFrom);
  // What is told is what is priced: starts to a tenth of a foot.
  const told = found.starts.slice();
  for (const position of movers)
    for (const at of [2 * position - 2, 2 * position - 1]) told[at] = tenths(found.starts[at]);
  const [planMarks, evenMarks, ownMarks] = judge.marks([told, even, own], found.shiftOf);
  const difference = planMarks.map((mark, k) => mark - evenMarks[k]);
  warnAboutSpots(judging, told, settled, question.safeS ?? SAFE_S);
  const amounts = (of: (marks: Float64Array) => number) => ({
    plan: of(planMarks),
    even: of(evenMarks),
    own: of(ownMarks),
  });
  const name = (index: number) => (index < 0 ? null : table.people[index]);
  return {
    batter: question.batter,
    side: SIDES[side],
    defence: question.defence,
    outs: question.outs,
    runners: runnersText(question.bases),
    rule: question.rule,
    balls: batterCase.seenCount,
    starts: movers.map((position) => {
      const at = 2 * position - 2;
      return {
        position,
        fielder_id: name(settled.men[position - 1]),
        start_x_ft: told[at],
        start_y_ft: told[at + 1],
        even_x_ft: tenths(even[at]),
        even_y_ft: tenths(even[at + 1]),
        own_x_ft: tenths(own[at]),
        own_y_ft: tenths(own[at + 1]),
      };
    }),
    outs_per_100: amounts((marks) => judge.outs(marks)),
    runs_per_100: amounts((marks) => judge.runs(marks)),
    gain_runs_per_100: judge.gain(difference, batterCase.redrawn),
    cost_of_error: costsOfError(found.asked, found.starts),
    warnings,
    ...(question.swap === undefined || question.swap.size === 0
      ? {}
      : { swap: swapGains(grounds, settled, found, solveWith, judge, random.fork('swap')) }),
  };
}

function tenths(feet: number): number {
  return Math.round(feet * 10) / 10;
}

function worthOf(grounds: PlanGrounds, balls: WeightedBalls, state: number): Float64Array {
  const stakes = stakesOfBalls(grounds, balls, state);
  return balls.weight.map((weight, k) => weight * stakes[k]);
}

/** Mean runs per 100 balls that each man costs who starts a yard off, over eight ways. */
function costsOfError(asked: StartQuestion, starts: Float64Array): Plan['cost_of_error'] {
  const { movers } = asked;
  const men = standMen(
    { ...asked, moveCost: 0 },
    movers.map((position) => yardAround(starts[2 * position - 2], starts[2 * position - 1])),
  );
  const there = movers.map(() => 0);
  return movers.map((position, m) => {
    const [own, ...off] = men.gains(m, there);
    const lost = off.reduce((sum, gain) => sum + own - gain, 0);
    return { position, feet: ERROR_FT, runs_per_100: (PER * lost) / DIRECTIONS };
  });
}

/** A spot and those a yard off in eight ways, x and y in turn. */
function yardAround(xFt: number, yFt: number): Float64Array {
  const spots = [xFt, yFt];
  for (let d = 1; d <= DIRECTIONS; d += 1) {
    const angle = (2 * Math.PI * d) / DIRECTIONS;
    spots.push(xFt + ERROR_FT * Math.sin(angle), yFt + ERROR_FT * Math.cos(angle));
  }
  return Float64Array.from(spots);
}

function warnAboutSpots(balls: WeightedBalls, starts: Float64Array, settled: Settled, safeS: number): void {
  for (const position of settled.movers) {
    const time = leastTimeS(balls, starts[2 * position - 2], starts[2 * position - 1]);
    if (time < safeS) settled.warnings.push(sayTooNear(position, time, safeS));
  }
}
