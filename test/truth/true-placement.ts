import type { LeagueOptions } from '../../src/league/demo-league.ts';
import { allocateBallPath } from '../../src/league/physics/ball-path.ts';
import { SKILL_STRIDE } from '../../src/league/physics/men.ts';
import { playBall } from '../../src/league/physics/play-ball.ts';
import { allocatePlayDraws, drawPlay } from '../../src/league/physics/play-draws.ts';
import { allocateOutcome, allocateSituation } from '../../src/league/physics/situation.ts';
import { foundClub } from '../../src/league/scenario/club.ts';
import type { Person } from '../../src/league/scenario/person.ts';
import { placeDefence } from '../../src/league/scenario/place-defence.ts';
import { fillSituation } from '../../src/league/truth/replay-ball.ts';
import { traceRow } from '../../src/league/truth/trace-row.ts';
import { createRandom } from '../../src/numeric/random.ts';
import type { LeagueEvidence } from './league-evidence.ts';
import { truePeople } from './true-batters.ts';

const FIRST_YEAR = 2031;
/** An inning in which nobody guards the lines. */
const INNING = 5;

/**
 * Outs per 100 balls by which each club's way of placing its men truly differs from the mean of the other clubs', average men: on every
 * ball of some rows of the table each club places its own defence, with the same luck.
 */
export function truePlacement(
  own: LeagueEvidence,
  options: LeagueOptions,
  rows: readonly number[],
  twoASide: boolean,
  seed: number,
): Float64Array {
  const { truth } = own.league;
  const people: readonly Person[] = truePeople(options);
  const founding = createRandom(options.seed);
  const clubs = Array.from({ length: options.teams }, (_, k) =>
    foundClub(k, [], FIRST_YEAR, founding.fork(`club-${k}`)),
  );
  const men = truth.averageSkills.slice(SKILL_STRIDE);
  const random = createRandom(seed);
  const path = allocateBallPath();
  const starts = new Float64Array(18);
  const situation = allocateSituation();
  const outcome = allocateOutcome();
  const draws = allocatePlayDraws();
  const { balls } = truth;
  const outs = new Float64Array(clubs.length);
  for (const row of rows) {
    traceRow(balls, row, path);
    fillSituation(truth, row, situation);
    drawPlay(random.next, draws);
    const state = { outs: situation.outs, bases: situation.bases, inning: INNING, buntLikely: false, twoASide };
    clubs.forEach(({ habit }, club) => {
      placeDefence(habit, people[balls.batter[row]!]!, state, random, starts);
      playBall(path, situation, starts, men, draws, outcome);
      if (outcome.outsMade > 0) outs[club]! += 1;
    });
  }
  const all = outs.reduce((sum, value) => sum + value, 0);
  return outs.map((value) => (100 * (value - (all - value) / (clubs.length - 1))) / rows.length);
}
