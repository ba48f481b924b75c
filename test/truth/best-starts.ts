import { BALL_KINDS } from '../../src/diamond/play-codes.ts';
import { allocateBallPath, type BallPath, type Launch } from '../../src/league/physics/ball-path.ts';
import type { Meeting } from '../../src/league/physics/meet-ball.ts';
import { SKILL_STRIDE } from '../../src/league/physics/men.ts';
import { playBall } from '../../src/league/physics/play-ball.ts';
import { allocatePlayDraws, drawPlay, type PlayDraws } from '../../src/league/physics/play-draws.ts';
import { meetFromStart } from '../../src/league/physics/pursue-ball.ts';
import { allocateOutcome, allocateSituation } from '../../src/league/physics/situation.ts';
import { traceBall } from '../../src/league/physics/trace-ball.ts';
import type { Person } from '../../src/league/scenario/person.ts';
import type { LeagueTruth } from '../../src/league/truth/league-truth.ts';
import { isAllowed, type SpotLimits, spotGrid } from '../../src/plans/spot-limits.ts';
import { trueLaunches } from './true-batters.ts';

const FLY = BALL_KINDS.indexOf('fly');
const INFIELDERS = [3, 4, 5, 6] as const;
const ROUNDS = 6;
/** A fine search that ends at the border of its squares goes on around its end, but not for ever. */
const ZOOMS = 4;
/** Half the side of the squares of a fine search, in steps. */
const HALF_STEPS = 2;

/** A grid's step and the balls on which its spots are compared. */
export interface SearchStage {
  readonly stepFt: number;
  readonly balls: number;
}

interface KeptBall {
  readonly path: BallPath;
  readonly kind: number;
  readonly surface: number;
  readonly draws: PlayDraws;
}

const outcome = allocateOutcome();
const situation = allocateSituation();

/**
 * The best starts of four infielders that a brute-force search of the simulator finds against one batter: the same balls and luck
 * for every placement, each man in turn to the best spot of a grid until nobody gains, then on a finer grid and with more balls, as
 * the best on few balls is partly the best for their luck. Average men, nobody on. Flies, which no infielder reaches, are left out of the search. Only what the limits allow.
 */
export class BestStarts {
  private readonly men: Float64Array;
  private readonly balls: KeptBall[] = [];
  private readonly homeToFirstS: number;
  private readonly limits: SpotLimits;

  constructor(
    truth: Pick<LeagueTruth, 'averageSkills'>,
    batter: Person,
    limits: SpotLimits,
    balls: number,
    seed: number,
  ) {
    this.men = truth.averageSkills.slice(SKILL_STRIDE);
    this.homeToFirstS = batter.homeToFirstS;
    this.limits = limits;
    let state = seed;
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    for (const { launch, kind } of trueLaunches(batter, balls, seed)) {
      if (kind === FLY) continue;
      const draws = allocatePlayDraws();
      drawPlay(random, draws);
      this.balls.push({ path: tracedCopy(launch), kind, surface: launch.surface, draws });
    }
  }

  /** From each of some beginnings; the best by the balls of the fine search. */
  search(beginnings: readonly Float64Array[], coarse: SearchStage, fine: SearchStage): Float64Array {
    const found = beginnings.map((starts) => {
      let here = this.climb(starts, coarse.balls, (position) => spotGrid(this.limits, position, coarse.stepFt, 400));
      for (let zoom = 0; zoom < ZOOMS; zoom += 1) {
        const { starts: from } = here;
        here = this.climb(from, fine.balls, (position) => this.around(from, position, fine.stepFt));
        const border = HALF_STEPS * fine.stepFt - 1e-6;
        if (here.starts.every((value, k) => Math.abs(value - from[k]!) < border)) break;
      }
      return here;
    });
    return found.reduce((a, b) => (b.outs > a.outs ? b : a)).starts;
  }

  private around(starts: Float64Array, position: number, stepFt: number): Float64Array {
    const spots: number[] = [];
    for (let i = -HALF_STEPS; i <= HALF_STEPS; i += 1) {
      for (let j = -HALF_STEPS; j <= HALF_STEPS; j += 1) {
        const [x, y] = [starts[2 * position - 2]! + i * stepFt, starts[2 * position - 1]! + j * stepFt];
        if (isAllowed(this.limits, position, x, y)) spots.push(x, y);
      }
    }
    return Float64Array.from(spots);
  }

  private climb(from: Float64Array, balls: number, spotsOf: (position: number) => Float64Array) {
    const starts = from.slice();
    const grids = INFIELDERS.map(spotsOf);
    let outs = -1;
    for (let round = 0; round < ROUNDS; round += 1) {
      const began = outs;
      INFIELDERS.forEach((position, m) => {
        const here = starts.slice(2 * position - 2, 2 * position);
        const spots = Float64Array.from([...here, ...grids[m]!]);
        const counts = this.outsAt(starts, position, spots, balls);
        let best = 0;
        for (let s = 1; s < counts.length; s += 1) if (counts[s]! > counts[best]!) best = s;
        outs = counts[best]!;
        starts.set(spots.subarray(2 * best, 2 * best + 2), 2 * position - 2);
      });
      if (outs <= began) break;
    }
    return { starts, outs };
  }

  /** Outs over the first so many balls with the man of a position at each of some spots, the others where they are. */
  private outsAt(others: Float64Array, position: number, spots: Float64Array, balls: number): Float64Array {
    const starts = others.slice();
    const counts = new Float64Array(spots.length / 2);
    const kept: Meeting[] = Array.from({ length: 10 }, () => ({ step: -1, needFt: 0, cost: 0 }));
    situation.legsS[0] = this.homeToFirstS;
    situation.outs = 0;
    situation.bases = 0;
    for (const { path, kind, surface, draws } of this.balls.slice(0, balls)) {
      situation.kind = kind;
      situation.surface = surface;
      const inAir = kind !== 0;
      const asked = new Uint8Array(10);
      const known = (p: number, horizonS: number, out: Meeting) => {
        if (p === position || asked[p] === 0) {
          meetFromStart(path, starts, this.men, p, draws.step[p]!, horizonS, inAir, kept[p]!);
          asked[p] = 1;
        }
        Object.assign(out, kept[p]);
      };
      for (let s = 0; s < counts.length; s += 1) {
        starts[2 * position - 2] = spots[2 * s]!;
        starts[2 * position - 1] = spots[2 * s + 1]!;
        playBall(path, situation, starts, this.men, draws, outcome, known);
        if (outcome.outsMade > 0) counts[s]! += 1;
      }
    }
    return counts;
  }
}

function tracedCopy(launch: Launch): BallPath {
  traceBall(launch, scratch);
  const cut = (column: Float64Array) => column.slice(0, scratch.steps);
  return { ...scratch, x: cut(scratch.x), y: cut(scratch.y), z: cut(scratch.z), speed: cut(scratch.speed) };
}
const scratch = allocateBallPath();
