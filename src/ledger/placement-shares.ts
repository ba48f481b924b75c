import type { BallGame } from '../chances/ball-game.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { Shifts } from './balance.ts';
import { leastDraw } from './raw-marks.ts';
import { bitCount, shapleyInto } from './shapley.ts';

/**
 * The placement game of one play after another (method.md 6 and 7): balanced opening and set mark, and each moving man's
 * Shapley value between them. Holds scratch space: one a thread and loop.
 */
export class PlacementShares {
  private readonly game: BallGame;
  private readonly draws: number;
  private readonly coalition: Float64Array;
  /** Outs by player, in the order of the game's players. */
  readonly outs: Float64Array;
  /** By player, too: outs that he would be worth more at the draws' spots, all others where they stood. */
  readonly room: Float64Array;
  opening = Number.NaN;
  set = Number.NaN;

  constructor(game: BallGame, draws: number) {
    this.game = game;
    this.draws = draws;
    this.coalition = new Float64Array(1 << game.movable.length);
    this.outs = new Float64Array(game.movable.length);
    this.room = new Float64Array(game.movable.length);
  }

  /** Plays the game of play `at`, of grade `full`; leaves the game at the men's actual starts. */
  settle(at: number, shifts: Pick<Shifts, 'opening' | 'set'>): void {
    const { game, draws, coalition } = this;
    game.setActual(at);
    game.playCoalitions(at);
    const players = game.playerCount;
    const coalitions = 1 << players;
    const least = leastDraw(game.value[0]);
    for (let a = 0; a < coalitions; a += 1) {
      const odds = Math.exp(shifts.opening + (shifts.set - shifts.opening) * (bitCount(a) / players));
      let sum = 0;
      for (let d = 0; d < draws; d += 1) {
        sum += shiftByOdds(Math.max(game.coalitionValue[d * coalitions + a], least), odds);
      }
      coalition[a] = sum / draws;
    }
    this.opening = coalition[0];
    this.set = coalition[coalitions - 1];
    shapleyInto(coalition, players, this.outs);
    for (let b = 0; b < players; b += 1) this.room[b] = coalition[(coalitions - 1) ^ (1 << b)] - this.set;
  }
}
