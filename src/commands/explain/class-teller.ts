import { AirChances, MOVABLE_IN_THE_AIR } from '../../chances/air/air-chances.ts';
import type { ClassPlays } from '../../chances/class-plays.ts';
import type { DefenderChances } from '../../chances/defender-chances.ts';
import { chooseEvenDraws, type EvenDraws } from '../../chances/even-draws.ts';
import { type FinishView, viewFinish } from '../../chances/finish-model.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../chances/grounder-chances.ts';
import { type PlayCase, packAirBall, packGroundBall } from '../../ledger/play-case.ts';
import type { SetModels } from '../../ledger/set-models.ts';
import type { BuildFile } from '../build-file.ts';
import type { BookPlays } from '../score-book.ts';

export type BallClass = SetModels['ballClass'];

/** A class of balls with what it was scored by. */
export interface ClassTeller {
  readonly plays: ClassPlays;
  readonly chances: DefenderChances;
  readonly movable: readonly number[];
  readonly draws: EvenDraws;
  packBall(at: number): PlayCase['ball'];
  /** What the gathered mark rests on; null when nobody gathered, and for a catch, which is an out. */
  finishOf(at: number): FinishView | null;
}

/** Null when the book has no ball of the class. */
export function tellerOf(
  ballClass: BallClass,
  { grounders, air }: BookPlays,
  { models, draws }: BuildFile,
): ClassTeller | null {
  if (ballClass === 'ground') {
    if (models.grounders === null) return null;
    const { finish } = models.grounders;
    return {
      plays: grounders,
      chances: new GrounderChances(grounders, models.grounders),
      movable: MOVABLE_ON_GROUNDERS,
      draws: chooseEvenDraws(grounders, draws),
      packBall: (at) => packGroundBall(grounders, at),
      finishOf: (at) => (grounders.table.gatheredBy[grounders.row[at]] > 0 ? viewFinish(finish, grounders, at) : null),
    };
  }
  if (models.air === null) return null;
  const chances = new AirChances(air, models.air);
  return {
    plays: air,
    chances,
    movable: MOVABLE_IN_THE_AIR,
    draws: chooseEvenDraws(air, draws),
    packBall: (at) => packAirBall(chances, at),
    finishOf: () => null,
  };
}
