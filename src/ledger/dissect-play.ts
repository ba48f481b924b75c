import { BallGame, MOVABLE } from '../chances/ball-game.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { type FinishView, viewFinish } from '../chances/finish-model.ts';
import { FULL, WHOLE } from '../chances/grades.ts';
import type { GrounderModels } from '../chances/grounder-models.ts';
import { type Grounders, INFIELD_SIZE } from '../chances/grounders.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { Shifts } from './balance.ts';

/** One infielder's part in a play, as the marks see it. */
export interface DefenderView {
  readonly position: number;
  readonly startXFt: number;
  readonly startYFt: number;
  /** Mean of the starts that the opening mark averaged over; NaN for pitcher and catcher, who do not move. */
  readonly evenXFt: number;
  readonly evenYFt: number;
  /** Distance from his start to the ball's line, signed: positive when it passes on his first-base side. */
  readonly gapFt: number;
  /** Seconds after contact at which the ball came nearest to him. */
  readonly arrivalS: number;
  /** Chance that he gathers it if nobody before him does, and of an out if he does; balanced only as a whole. */
  readonly reach: number;
  readonly promise: number;
  /** Set mark of the team had he not been there at all. */
  readonly setWithoutHim: number;
}

/** What the numbers of one play came from. */
export interface PlayView {
  /** Numbers of the grounders whose placements the opening mark averaged over. */
  readonly lenders: readonly number[];
  /** Lowest and highest of the opening mark's draws. */
  readonly openingLow: number;
  readonly openingHigh: number;
  /** In chance order; empty when the play's line or starts are not known. */
  readonly defenders: readonly DefenderView[];
  /** null when nobody gathered, or nobody saw who did. */
  readonly finish: FinishView | null;
}

/** Takes one grounder apart (method.md 4 to 6) with the models and shifts of the build that scored it. */
export function dissectPlay(
  grounders: Grounders,
  models: GrounderModels,
  draws: EvenDraws,
  shifts: Shifts,
  at: number,
): PlayView {
  const lenders = Array.from(draws.source.subarray(at * draws.draws, (at + 1) * draws.draws)).filter(
    (lender) => lender >= 0,
  );
  const game = new BallGame(models, grounders, draws);
  const opening = new Float64Array(draws.draws);
  if (lenders.length > 0) game.playOpening(at, opening, 0, new Float64Array(INFIELD_SIZE), 0);
  const shifted = opening.map((value) => shiftByOdds(value, Math.exp(shifts.opening)));
  const gathered = grounders.table.gatheredBy[grounders.row[at]] > 0 && grounders.grade[at] !== WHOLE;
  return {
    lenders,
    openingLow: lenders.length > 0 ? Math.min(...shifted) : Number.NaN,
    openingHigh: lenders.length > 0 ? Math.max(...shifted) : Number.NaN,
    defenders: grounders.grade[at] === FULL ? viewDefenders(grounders, game, lenders, Math.exp(shifts.set), at) : [],
    finish: gathered ? viewFinish(models.finish, grounders, at) : null,
  };
}

function viewDefenders(
  grounders: Grounders,
  game: BallGame,
  lenders: readonly number[],
  odds: number,
  at: number,
): DefenderView[] {
  game.setActual(at);
  const order = Array.from(game.chanceOrder);
  return order.map((k) => {
    const from = (at * INFIELD_SIZE + k) * 2;
    const x = grounders.starts[from];
    const y = grounders.starts[from + 1];
    game.chances.standAt(k, x, y);
    const moves = (MOVABLE as readonly number[]).includes(k);
    const evenOf = (axis: number) =>
      moves
        ? lenders.reduce((sum, lender) => sum + grounders.starts[(lender * INFIELD_SIZE + k) * 2 + axis], 0) /
          lenders.length
        : Number.NaN;
    return {
      position: k + 1,
      startXFt: x,
      startYFt: y,
      evenXFt: evenOf(0),
      evenYFt: evenOf(1),
      gapFt: game.chances.gap,
      arrivalS: game.chances.arrival,
      reach: game.reach[k],
      promise: game.promise[k],
      setWithoutHim: shiftByOdds(setWithout(game, order, k), odds),
    };
  });
}

function setWithout(game: BallGame, order: readonly number[], absent: number): number {
  let value = 0;
  for (let k = order.length - 1; k >= 0; k -= 1) {
    const i = order[k];
    if (i !== absent) value = game.reach[i] * game.promise[i] + (1 - game.reach[i]) * value;
  }
  return value;
}
