import { BALL_KINDS } from '../../src/diamond/play-codes.ts';
import type { LeagueOptions } from '../../src/league/demo-league.ts';
import { allocateBallPath, type Launch } from '../../src/league/physics/ball-path.ts';
import type { Meeting } from '../../src/league/physics/meet-ball.ts';
import { SKILL_STRIDE } from '../../src/league/physics/men.ts';
import { playBall } from '../../src/league/physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../../src/league/physics/play-draws.ts';
import { meetFromStart } from '../../src/league/physics/pursue-ball.ts';
import { allocateOutcome, allocateSituation } from '../../src/league/physics/situation.ts';
import { traceBall } from '../../src/league/physics/trace-ball.ts';
import { foundClub } from '../../src/league/scenario/club.ts';
import { drawLaunch } from '../../src/league/scenario/draw-launch.ts';
import { nameKind } from '../../src/league/scenario/name-kind.ts';
import type { Person } from '../../src/league/scenario/person.ts';
import { winter } from '../../src/league/scenario/winter.ts';
import type { LeagueTruth } from '../../src/league/truth/league-truth.ts';
import { createRandom } from '../../src/numeric/random.ts';

const FIRST_YEAR = 2031;
const GROUND = BALL_KINDS.indexOf('ground');

/** Everybody of a demo league with his true habit at bat, which the league's tables and truth do not tell. */
export function truePeople({ seasons, teams, seed }: LeagueOptions): Person[] {
  const random = createRandom(seed);
  const people: Person[] = [];
  const clubs = Array.from({ length: teams }, (_, k) => foundClub(k, people, FIRST_YEAR, random.fork(`club-${k}`)));
  for (let k = 1; k < seasons; k += 1) winter(clubs, people, FIRST_YEAR + k, random.fork(`winter-${FIRST_YEAR + k}`));
  return people;
}

/** What stands before the pitch, for replays. */
export interface TrueSituation {
  readonly outs: number;
  readonly bases: number;
}

const path = allocateBallPath();
const launch: Launch = { exitSpeedMph: 0, launchAngleDeg: 0, bearingDeg: 0, surface: 1, kickDeg: 0, hop: 1 };
const draws = allocatePlayDraws();
const outcome = allocateOutcome();
const situation = allocateSituation();
/** A usual runner, seconds home to first. */
const RUNNER_S = 4.33;

/**
 * Shares of outs of whole placements (nine x, y pairs) on the same `balls` balls that this batter truly hits, with average men
 * and the same luck for all placements; home runs are not in play and drawn again. One number a placement, and the standard error
 * of its difference from the first.
 */
export function trueOuts(
  truth: Pick<LeagueTruth, 'averageSkills'>,
  batter: Person,
  placements: readonly Float64Array[],
  balls: number,
  seed: number,
  { outs, bases }: TrueSituation = { outs: 0, bases: 0 },
): { readonly share: Float64Array; readonly error: Float64Array } {
  const men = truth.averageSkills.slice(SKILL_STRIDE);
  const random = createRandom(seed);
  const share = new Float64Array(placements.length);
  const squares = new Float64Array(placements.length);
  setSituation(batter, outs, bases);
  for (let b = 0; b < balls; b += 1) {
    nextBall(batter, random, b);
    drawPlay(random.next, draws);
    let first = 0;
    met.fill(0);
    placements.forEach((starts, p) => {
      playBall(path, situation, starts, men, draws, outcome, (position, horizonS, out) =>
        meetOnce(starts, placements[0]!, men, position, horizonS, out),
      );
      const out = outcome.outsMade > 0 ? 1 : 0;
      if (p === 0) first = out;
      share[p]! += out;
      squares[p]! += (out - first) ** 2;
    });
  }
  const error = share.map((sum, p) => {
    const mean = (sum - share[0]!) / balls;
    return Math.sqrt(Math.max(squares[p]! / balls - mean * mean, 0) / balls);
  });
  return { share: share.map((sum) => sum / balls), error };
}

const kept: Meeting[] = Array.from({ length: 10 }, () => ({ step: -1, needFt: 0, cost: 0 }));
const met = new Uint8Array(10);

/** Where a man meets the ball; reckoned once for all placements in which he stands as in the first. */
function meetOnce(
  starts: Float64Array,
  firstStarts: Float64Array,
  men: Float64Array,
  p: number,
  horizonS: number,
  out: Meeting,
): void {
  const asInFirst = starts[2 * p - 2] === firstStarts[2 * p - 2] && starts[2 * p - 1] === firstStarts[2 * p - 1];
  if (asInFirst && met[p] === 1) Object.assign(out, kept[p]);
  else meetFromStart(path, starts, men, p, draws.step[p]!, horizonS, situation.kind !== GROUND, out);
  if (asInFirst && met[p] === 0) {
    Object.assign(kept[p]!, out);
    met[p] = 1;
  }
}

function setSituation(batter: Person, outs: number, bases: number): void {
  situation.outs = outs;
  situation.bases = bases;
  situation.legsS[0] = batter.homeToFirstS;
  for (let base = 1; base <= 3; base += 1) situation.legsS[base] = (bases >> (base - 1)) & 1 ? RUNNER_S : Number.NaN;
}

/** Traces the batter's next ball in play. A third of the parks have turf, as in the league. */
function nextBall(batter: Person, random: ReturnType<typeof createRandom>, number: number): void {
  launch.surface = number % 3 === 2 ? 2 : 1;
  do {
    drawLaunch(batter.habit, batter.batsLeft, random, launch);
    traceBall(launch, path);
  } while (path.gone);
  situation.surface = launch.surface;
  situation.kind = nameKind(launch.launchAngleDeg, path);
}

/** Launches and kinds of balls that this batter truly hits. */
export function trueLaunches(batter: Person, balls: number, seed: number): { launch: Launch; kind: number }[] {
  const random = createRandom(seed);
  return Array.from({ length: balls }, (_, k) => {
    nextBall(batter, random, k);
    return { launch: { ...launch }, kind: situation.kind };
  });
}
