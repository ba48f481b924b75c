import { chooseEvenDraws } from '../../src/chances/even-draws.ts';
import { FULL } from '../../src/chances/grades.ts';
import { INFIELD_SIZE } from '../../src/chances/grounders.ts';
import { MOVABLE_INFIELD } from '../../src/diamond/play-codes.ts';
import type { LeagueTruth } from '../../src/league/truth/league-truth.ts';
import { actualStarts, replayBall } from '../../src/league/truth/replay-ball.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { DEMO_DRAWS, type ScoredLeague } from '../helpers/scored-league.ts';

/** About `count` of the numbers in a list, evenly spaced over it. */
export function evenly(list: readonly number[], count: number): number[] {
  const every = Math.max(1, list.length / count);
  const kept: number[] = [];
  for (let k = 0; k < list.length; k += every) kept.push(list[Math.floor(k)]!);
  return kept;
}

/** Numbers of the grounders of grade `full` that `keep` lets in. */
export function fullPlays({ ledger }: ScoredLeague, keep: (at: number) => boolean = () => true): number[] {
  return Array.from(ledger.grade.keys()).filter((at) => ledger.grade[at] === FULL && keep(at));
}

/** Three or more infielders on one side of second base. */
export function isOvershift({ grounders }: ScoredLeague, at: number): boolean {
  const right = MOVABLE_INFIELD.filter((p) => grounders.starts[(at * INFIELD_SIZE + p - 1) * 2]! > 0).length;
  return right !== 2;
}

function outRate(truth: LeagueTruth, row: number, starts: Float64Array, replays: number, random: () => number): number {
  let outs = 0;
  for (let k = 0; k < replays; k += 1) {
    if (replayBall(truth, row, { starts, men: 'average', random }).outsMade > 0) outs += 1;
  }
  return outs / replays;
}

/** The set mark of some plays beside the share of outs among replays of the same ball and placement, average men. */
export function setAgainstReplays(scored: ScoredLeague, plays: readonly number[], replays: number) {
  const { truth } = scored.league;
  const random = createRandom(20_311).next;
  const starts = new Float64Array(18);
  return {
    set: plays.map((at) => scored.ledger.set[at]!),
    replayed: plays.map((at) => {
      const row = scored.grounders.row[at]!;
      return outRate(truth, row, actualStarts(truth, row, starts), replays, random);
    }),
  };
}

/**
 * What placement was worth on some plays: S - O beside the difference of replayed out rates, between the infield where it
 * stood and the infields of the very draws that the opening mark averaged over. Average men; the outfield stays.
 */
export function placementAgainstReplays(scored: ScoredLeague, plays: readonly number[], replaysADraw: number) {
  const { truth } = scored.league;
  const { ledger, grounders } = scored;
  const { draws, source } = chooseEvenDraws(grounders, DEMO_DRAWS);
  const random = createRandom(20_312).next;
  const starts = new Float64Array(18);
  const replayed = plays.map((at) => {
    const row = grounders.row[at]!;
    const there = outRate(truth, row, actualStarts(truth, row, starts), replaysADraw * draws, random);
    let elsewhere = 0;
    for (let d = 0; d < draws; d += 1) {
      const lender = source[at * draws + d]! * INFIELD_SIZE;
      for (const position of MOVABLE_INFIELD) {
        for (let axis = 0; axis < 2; axis += 1) {
          const from = (lender + position - 1) * 2 + axis;
          starts[2 * position - 2 + axis] = grounders.starts[from]!;
        }
      }
      elsewhere += outRate(truth, row, starts, replaysADraw, random) / draws;
    }
    return there - elsewhere;
  });
  return { placement: plays.map((at) => ledger.set[at]! - ledger.opening[at]!), replayed };
}
