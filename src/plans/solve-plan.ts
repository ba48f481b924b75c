import { MOVABLE_INFIELD, ON_FIRST, ON_SECOND, SIDES } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { hashText } from '../numeric/hash.ts';
import { createRandom } from '../numeric/random.ts';
import { type BatterBalls, fitBatterBalls } from './batter-balls.ts';
import { beginnings } from './beginnings.ts';
import { ChanceBoard, type SkillShift } from './chance-board.ts';
import { drawBalls, INFIELD_COUNTS, judgingBalls, OUTFIELD_COUNTS, type WeightedBalls } from './draw-balls.ts';
import { quantile, redrawnWeights, weightedMean } from './judge-plan.ts';
import { leastTimeS, SAFE_S } from './least-time.ts';
import { type Interval80, type Plan, type PlanQuestion, runnersText, type SwapGain } from './plan-types.ts';
import { type PlanGrounds, stakesOfBalls } from './prepare-plans.ts';
import { searchStarts } from './search-starts.ts';
import { type PlanDepth, type SpotLimits, spotGrid } from './spot-limits.ts';

const OUTFIELD = [7, 8, 9] as const;
const RANDOM_BEGINNINGS = 6;
/** How far off a man is when the cost of an error is asked: a yard. */
const ERROR_FT = 3;
const DIRECTIONS = 8;
const FEW_BALLS = 30;
const PER = 100;

/** A question with everything in it settled. */
interface Settled {
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

/**
 * Where to stand against one batter in one situation (method.md 12): the starts under which an average defence, or the club's own
 * men, would allow the fewest runs on the balls that he is likely to hit, what they are worth against the even spots and the
 * club's own, and how sure that is. The same question gives the same plan.
 * @throws ExpectedFailure `data`: batter, pitcher or club is not in the book, or it has no models, or no ratings for own men
 */
export function solvePlan(grounds: PlanGrounds, question: PlanQuestion): Plan {
  const settled = settle(grounds, question);
  const { side, state, movers, warnings } = settled;
  const { table } = grounds.data;
  const random = createRandom(hashText(`${question.batter} ${side} ${state}`, question.seed ?? 1));
  const numbers = (grounds.ofBatter.get(settled.batter) ?? []).filter(
    (k) => table.batterSide[grounds.balls.row[k]] === side,
  );
  const batter = fitBatterBalls(table, grounds.sides[side], numbers, grounds.lastDay, grounds.settings);
  warnAboutBalls(numbers.length, warnings);
  const pitcher = pitcherTilt(grounds, question, side);
  const carry = grounds.data.air?.carry ?? null;
  const counts = question.outfield ? OUTFIELD_COUNTS : INFIELD_COUNTS;
  const sample = drawBalls(batter, counts, carry, pitcher, random.fork('sample'));
  const judging = judgingBalls(batter, carry, pitcher, random.fork('judging'));

  const even = grounds.usual.even(side, state);
  const own = grounds.usual.own(settled.team, side, state) ?? even;
  if (own === even)
    warnings.push(
      `Too few plays of ${question.defence} were seen against this side: its own starts are taken to be the even spots.`,
    );
  const limits = limitsOf(grounds, settled);

  const solveWith = (men: Int32Array) => {
    const shiftOf = skillsOf(grounds, settled, men);
    const board = new ChanceBoard(grounds.data, sample, settled, shiftOf);
    const worth = worthOf(grounds, sample, state);
    const asked = { board, worth, others: even, movers, limits };
    const found = searchStarts(asked, beginnings(even, own), RANDOM_BEGINNINGS, random.fork('search'));
    return { ...found, board, worth, shiftOf };
  };
  const found = solveWith(settled.men);
  const judge = new Judge(grounds, settled, batter, judging, pitcher);
  const [planMarks, evenMarks, ownMarks] = judge.marks([found.starts, even, own], found.shiftOf);
  const difference = planMarks.map((mark, k) => mark - evenMarks[k]);
  warnAboutSpots(judging, found.starts, settled, question.safeS ?? SAFE_S);
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
    balls: numbers.length,
    starts: movers.map((position) => {
      const at = 2 * position - 2;
      return {
        position,
        fielder_id: name(settled.men[position - 1]),
        start_x_ft: tenths(found.starts[at]),
        start_y_ft: tenths(found.starts[at + 1]),
        even_x_ft: tenths(even[at]),
        even_y_ft: tenths(even[at + 1]),
        own_x_ft: tenths(own[at]),
        own_y_ft: tenths(own[at + 1]),
      };
    }),
    outs_per_100: amounts((marks) => judge.outs(marks)),
    runs_per_100: amounts((marks) => judge.runs(marks)),
    gain_runs_per_100: judge.gain(difference, random.fork('interval')),
    cost_of_error: movers.map((position) => ({
      position,
      feet: ERROR_FT,
      runs_per_100: costOfError(found.board, found.worth, found.starts, position),
    })),
    warnings,
    ...(question.swap === undefined || question.swap.size === 0
      ? {}
      : { swap: swapGains(grounds, settled, found, solveWith, judge, random.fork('interval').fork('swap').next()) }),
  };
}

function tenths(feet: number): number {
  return Math.round(feet * 10) / 10;
}

function settle(grounds: PlanGrounds, question: PlanQuestion): Settled {
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
  const onFirst = (bases & ON_FIRST) !== 0;
  const men = grounds.usualMen[team].slice();
  return {
    question,
    batter,
    team,
    side,
    state: outs * 8 + bases,
    depth: question.depth ?? (onFirst && outs < 2 ? 'double-play' : 'usual'),
    hold: onFirst && (question.hold ?? (bases & ON_SECOND) === 0),
    batterToFirstS: Number.isNaN(grounds.runnerS[batter]) ? grounds.sideRunnerS[side] : grounds.runnerS[batter],
    movers: question.outfield ? [...MOVABLE_INFIELD, ...OUTFIELD] : MOVABLE_INFIELD,
    men,
    warnings,
  };
}

function personIndex(grounds: PlanGrounds, id: string, what: string): number {
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

function warnAboutBalls(count: number, warnings: string[]): void {
  if (count === 0)
    warnings.push('No ball of this batter from this side was seen: the plan is for an average batter of his side.');
  else if (count < FEW_BALLS)
    warnings.push(`Only ${count} of his balls were seen: the plan is mostly for an average batter of his side.`);
}

function pitcherTilt(grounds: PlanGrounds, { pitcher }: PlanQuestion, side: number): Float64Array | null {
  if (pitcher === undefined) return null;
  const { table } = grounds.data;
  const numbers = (grounds.ofPitcher.get(personIndex(grounds, pitcher, 'pitcher')) ?? []).filter(
    (k) => table.batterSide[grounds.balls.row[k]] === side,
  );
  return fitBatterBalls(table, grounds.sides[side], numbers, grounds.lastDay, grounds.settings).tilt.theta;
}

/** Logit shifts of the men on the field; undefined for average men. */
function skillsOf(grounds: PlanGrounds, { question }: Settled, men: Int32Array): SkillShift | undefined {
  if (!question.ownMen && question.swap === undefined) return undefined;
  const { shiftOf, table } = grounds.data;
  if (shiftOf === undefined)
    throw new ExpectedFailure(
      'data',
      'The book holds no ratings of its men, so a plan cannot reckon with them.',
      'Build it again with this release: leatherbook build --book DIR',
    );
  return (kind, position) => (men[position - 1] < 0 ? 0 : shiftOf(kind, position, table.people[men[position - 1]]));
}

/** Limits under which every man has at least one spot; what had to be given up for that is a warning. */
function limitsOf(grounds: PlanGrounds, settled: Settled): SpotLimits {
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

function worthOf(grounds: PlanGrounds, balls: WeightedBalls, state: number): Float64Array {
  const stakes = stakesOfBalls(grounds, balls, state);
  return balls.weight.map((weight, k) => weight * stakes[k]);
}

/** Mean runs per 100 balls that a man costs who starts a yard off, over eight ways. */
function costOfError(board: ChanceBoard, worth: Float64Array, starts: Float64Array, position: number): number {
  const placements = Array.from({ length: DIRECTIONS + 1 }, (_, d) => {
    const moved = starts.slice();
    if (d === 0) return moved;
    const angle = (2 * Math.PI * d) / DIRECTIONS;
    moved[2 * position - 2] += ERROR_FT * Math.sin(angle);
    moved[2 * position - 1] += ERROR_FT * Math.cos(angle);
    return moved;
  });
  const [there, ...off] = board.setMarks(placements).map((marks) => weightedMean(worth, marks));
  return (PER * off.reduce((sum, value) => sum + there - value, 0)) / DIRECTIONS;
}

function warnAboutSpots(balls: WeightedBalls, starts: Float64Array, settled: Settled, safeS: number): void {
  for (const position of settled.movers) {
    const time = leastTimeS(balls, starts[2 * position - 2], starts[2 * position - 1]);
    if (time < safeS)
      settled.warnings.push(
        `Position ${position} would have ${time.toFixed(2)} s against his hardest balls, less than ${safeS} s: too near to be safe. The league's and the coach's own rules come first, above all for young players.`,
      );
  }
}

/** Prices placements on balls that no plan was made with. */
class Judge {
  private readonly grounds: PlanGrounds;
  private readonly settled: Settled;
  private readonly batter: BatterBalls;
  private readonly balls: WeightedBalls;
  private readonly stakes: Float64Array;
  private readonly pitcher: Float64Array | null;

  constructor(
    grounds: PlanGrounds,
    settled: Settled,
    batter: BatterBalls,
    balls: WeightedBalls,
    pitcher: Float64Array | null,
  ) {
    this.grounds = grounds;
    this.settled = settled;
    this.batter = batter;
    this.balls = balls;
    this.pitcher = pitcher;
    this.stakes = stakesOfBalls(grounds, balls, settled.state);
  }

  marks(placements: readonly Float64Array[], shiftOf: SkillShift | undefined): Float64Array[] {
    return new ChanceBoard(this.grounds.data, this.balls, this.settled, shiftOf).setMarks(placements);
  }

  outs(marks: Float64Array): number {
    return PER * weightedMean(this.balls.weight, marks);
  }

  runs(marks: Float64Array): number {
    return (
      PER *
      weightedMean(
        this.balls.weight,
        marks.map((mark, k) => this.stakes[k] * (1 - mark)),
      )
    );
  }

  /** Runs per 100 balls that a difference of set marks is worth, and where it could as well lie. */
  gain(difference: Float64Array, random: ReturnType<typeof createRandom>): Interval80 {
    const runs = difference.map((each, k) => each * this.stakes[k]);
    const redrawn: number[] = [];
    for (const weight of redrawnWeights(this.batter, this.pitcher, random))
      redrawn.push(PER * weightedMean(weight, runs));
    const sorted = Float64Array.from(redrawn);
    return {
      value: PER * weightedMean(this.balls.weight, runs),
      lo80: quantile(sorted, 0.1),
      hi80: quantile(sorted, 0.9),
    };
  }
}

function swapGains(
  grounds: PlanGrounds,
  settled: Settled,
  found: { readonly starts: Float64Array; readonly shiftOf: SkillShift | undefined },
  solveWith: (men: Int32Array) => { readonly starts: Float64Array; readonly shiftOf: SkillShift | undefined },
  judge: Judge,
  seed: number,
): SwapGain[] {
  const { table } = grounds.data;
  const [usualMarks] = judge.marks([found.starts], found.shiftOf);
  return [...settled.question.swap!].map(([position, id]) => {
    const men = settled.men.slice();
    men[position - 1] = personIndex(grounds, id, 'man');
    const other = solveWith(men);
    const [marks] = judge.marks([other.starts], other.shiftOf);
    const before = settled.men[position - 1];
    return {
      position,
      fielder_id: id,
      instead_of: before < 0 ? null : table.people[before],
      gain_runs_per_100: judge.gain(
        marks.map((mark, k) => mark - usualMarks[k]),
        createRandom(Math.floor(seed * 2 ** 32)),
      ),
    };
  });
}
