import { type Fitting, together } from '../models/fitting.ts';
import { type FinishModel, finishChances, finishFitsOfSome } from './finish-model.ts';
import { foldOfGame } from './fold-of-game.ts';
import type { Grounders } from './grounders.ts';
import { splitAt, takePlays } from './take-plays.ts';

/**
 * G fitted once for each fold of the games, to the games of all other folds: what was to be expected of a gather by those who had not seen
 * how it ended. A rating asks how much men differ, and G itself has taken some of their luck for the place's
 * (docs/decisions/047-finish-judged-by-other-games.md). Empty where there is no G.
 */
export type FinishOnOtherGames = readonly FinishModel[];

const FOLDS = 5;
const FOLD_SEED = 1;

function foldsOf({ table, row }: Grounders): Uint8Array {
  return Uint8Array.from(row, (each) => foldOfGame(table.games[table.game[each]], FOLDS, FOLD_SEED));
}

/** The fits of G on other games; `finish` is G on all of them. */
export function* finishFitsOnOtherGames(grounders: Grounders, finish: FinishModel): Fitting<FinishOnOtherGames> {
  const fold = foldsOf(grounders);
  const folds = Array.from({ length: FOLDS }, (_, own) => own);
  return yield* together(folds.map((own) => fitsWithout(own, fold, grounders, finish)));
}

/** A book of hardly any games may have them all in one fold: there are no other games then, and G itself has to do. */
function* fitsWithout(own: number, fold: Uint8Array, grounders: Grounders, finish: FinishModel): Fitting<FinishModel> {
  if (fold.every((each) => each === own)) return finish;
  return yield* finishFitsOfSome(finish, grounders, (at) => fold[at] !== own);
}

/** Like finishChances, each grounder asked of the model that has not seen its game. */
export function finishChancesOnOtherGames(models: FinishOnOtherGames, grounders: Grounders): Float64Array {
  const fold = foldsOf(grounders);
  const out = new Float64Array(grounders.count);
  models.forEach((model, own) => {
    const { held } = splitAt(fold, own);
    const chances = finishChances(model, takePlays(grounders, held));
    held.forEach((at, k) => {
      out[at] = chances[k];
    });
  });
  return out;
}
