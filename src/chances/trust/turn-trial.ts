import { type Fitting, together } from '../../models/fitting.ts';
import { nameFits, sameChoices } from '../fit-choices.ts';
import type { Grounders } from '../grounders.ts';
import { splitAt, takePlays } from '../take-plays.ts';
import { listTurnFits, type TurnModel, turnChances, turnFits } from '../turn-model.ts';
import { selectTurnPlays } from '../turn-plays.ts';
import { additiveChoices } from './additive-choices.ts';
import { AnswerDraft, type Answers } from './answers.ts';
import { ballOf } from './ball-answers.ts';
import { assignFolds, type FoldSettings } from './folds.ts';
import { ShareTable } from './plainer-models.ts';

/** Answers about second outs on games that the models had not seen, as crossValidation gets those about the first. */
export function* turnTrial(
  grounders: Grounders,
  built: TurnModel,
  { folds, seed }: FoldSettings,
): Fitting<readonly Answers[]> {
  const fold = assignFolds(grounders, folds, seed);
  const own = nameFits(listTurnFits(built));
  const plainer = nameFits(listTurnFits(yield* turnFits(grounders, additiveChoices(own))));
  const turn = new AnswerDraft('turn', 0);
  const pivot = new AnswerDraft('pivot', 0);
  for (let k = 0; k < folds; k += 1) {
    const { held, others } = splitAt(fold, k);
    const train = takePlays(grounders, others);
    const [model, additive] = yield* together([
      turnFits(train, sameChoices(own)),
      turnFits(train, sameChoices(plainer)),
    ]);
    ask(train, takePlays(grounders, held), model, additive);
  }
  return [turn.answers(), pivot.answers()];

  function ask(train: Grounders, held: Grounders, model: TurnModel, additive: TurnModel): void {
    const seen = selectTurnPlays(train);
    const shares = { turn: new ShareTable(), pivot: new ShareTable() };
    seen.at.forEach((at, i) => {
      const row = [train.bearingDeg[at], train.exitSpeedMph[at], seen.made[i]] as const;
      shares.turn.add(...row);
      if (seen.pivot[i] > 0) shares.pivot.add(...row);
    });
    const asked = selectTurnPlays(held);
    const ours = turnChances(model, held, asked);
    const theirs = turnChances(additive, held, asked);
    const { gatherXFt, gatherYFt } = held.table;
    asked.at.forEach((at, i) => {
      const distanceFt = Math.hypot(gatherXFt[held.row[at]], gatherYFt[held.row[at]]);
      const rest = { outcome: asked.made[i], distanceFt };
      turn.add({ ...ballOf(held, at, shares.turn), ...rest, model: ours.gathered[i], additive: theirs.gathered[i] });
      if (asked.pivot[i] === 0) return;
      pivot.add({ ...ballOf(held, at, shares.pivot), ...rest, model: ours.thrown[i], additive: theirs.thrown[i] });
    });
  }
}
