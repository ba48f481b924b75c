import { nameFits, sameChoices } from '../../chances/fit-choices.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { splitAt } from '../../chances/take-plays.ts';
import { additiveChoices } from '../../chances/trust/additive-choices.ts';
import { AnswerDraft, type Answers } from '../../chances/trust/answers.ts';
import { assignFolds, type FoldSettings } from '../../chances/trust/folds.ts';
import { ShareTable } from '../../chances/trust/plainer-models.ts';
import { type Fitting, together } from '../../models/fitting.ts';
import { type HitModel, hitFits, hitOf, hitRows, listHitFits, predictHits } from './hit-model.ts';

/**
 * Answers about which hit a ball is, on games that the model had not seen (chances/trust/cross-validate.ts): whether a hit was more
 * than a single, and whether more than a double if so. The log loss of the three hits is the sum of these two.
 */
export function* hitTrial(
  plays: PlayTable,
  built: HitModel,
  { folds, seed }: FoldSettings,
): Fitting<readonly Answers[]> {
  if (listHitFits(built).length === 0) return [];
  const rows = hitRows(plays);
  const fold = assignFolds({ table: plays, row: Int32Array.from(rows), count: rows.length }, folds, seed);
  const own = nameFits(listHitFits(built));
  const plainer = nameFits(listHitFits(yield* hitFits(plays, additiveChoices(own))));
  const extra = new AnswerDraft('extra bases', 0);
  const triple = new AnswerDraft('triple', 0);
  for (let k = 0; k < folds; k += 1) {
    const { held, others } = splitAt(fold, k);
    const learnt = Array.from(others, (i) => rows[i]);
    const [model, additive] = yield* together([
      hitFits(plays, sameChoices(own), learnt),
      hitFits(plays, sameChoices(plainer), learnt),
    ]);
    ask(
      learnt,
      Array.from(held, (i) => rows[i]),
      model,
      additive,
    );
  }
  return [extra.answers(), triple.answers()];

  function ask(learnt: readonly number[], asked: readonly number[], model: HitModel, additive: HitModel): void {
    // A table for each kind of ball: grounders and flies have little in common here.
    const tables = { extra: new Map<number, ShareTable>(), triple: new Map<number, ShareTable>() };
    const all = { extra: new ShareTable(), triple: new ShareTable() };
    const add = (question: 'extra' | 'triple', row: number, happened: boolean) => {
      const kind = plays.ballKind[row];
      const table = tables[question].get(kind) ?? new ShareTable();
      tables[question].set(kind, table);
      for (const each of [table, all[question]])
        each.add(plays.bearingDeg[row], plays.exitSpeedMph[row], happened ? 1 : 0);
    };
    for (const row of learnt) {
      add('extra', row, hitOf(plays, row) > 0);
      if (hitOf(plays, row) > 0) add('triple', row, hitOf(plays, row) > 1);
    }
    const ours = predictHits(model, plays, asked);
    const theirs = predictHits(additive, plays, asked);
    const extraOf = (chances: Float64Array, i: number) => chances[3 * i + 1] + chances[3 * i + 2];
    const tripleOf = (chances: Float64Array, i: number) => chances[3 * i + 2] / extraOf(chances, i);
    asked.forEach((row, i) => {
      const [bearingDeg, speedMph] = [plays.bearingDeg[row], plays.exitSpeedMph[row]];
      const shared = { game: plays.game[row], bearingDeg, speedMph };
      const plain = (question: 'extra' | 'triple') => ({
        constant: all[question].mean,
        bins: (tables[question].get(plays.ballKind[row]) ?? all[question]).share(bearingDeg, speedMph),
      });
      const hit = hitOf(plays, row);
      extra.add({
        ...shared,
        ...plain('extra'),
        outcome: hit > 0 ? 1 : 0,
        model: extraOf(ours, i),
        additive: extraOf(theirs, i),
      });
      if (hit === 0) return;
      triple.add({
        ...shared,
        ...plain('triple'),
        outcome: hit > 1 ? 1 : 0,
        model: tripleOf(ours, i),
        additive: tripleOf(theirs, i),
      });
    });
  }
}
