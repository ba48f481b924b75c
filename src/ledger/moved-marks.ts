import { BallGame } from '../chances/ball-game.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import { shiftByOdds } from '../numeric/logistic.ts';

/** Where a man is put. */
export interface MovedMan {
  readonly position: number;
  readonly xFt: number;
  readonly yFt: number;
}

const NO_DRAWS = { draws: 0, source: new Int32Array(0) };

/** Set marks of plays of grade `full` with men elsewhere than they stood (method.md 4 and 7). Holds scratch space: one a loop. */
export class MovedMarks {
  private readonly plays: ClassPlays;
  private readonly game: BallGame;

  constructor(plays: ClassPlays, chances: DefenderChances) {
    this.plays = plays;
    this.game = new BallGame({ men: plays.men, starts: plays.starts.slice() }, chances, NO_DRAWS, []);
  }

  /**
   * The mark of play `at`, balanced by the odds of its group's shift, with these men moved and the others where they stood. A man who has no
   * part in balls of this class is left out.
   */
  mark(at: number, setOdds: number, moved: readonly MovedMan[]): number {
    const { men, starts } = this.plays;
    const there = this.game.plays.starts;
    for (const { position, xFt, yFt } of moved) {
      if (position > men) continue;
      there.set([xFt, yFt], 2 * (at * men + position - 1));
    }
    this.game.setActual(at);
    const own = 2 * at * men;
    there.set(starts.subarray(own, own + 2 * men), own);
    return shiftByOdds(this.game.value[0]!, setOdds);
  }
}
