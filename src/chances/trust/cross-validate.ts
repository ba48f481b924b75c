import { alongLineFt } from '../../diamond/ball-line.ts';
import { type Fitting, together } from '../../models/fitting.ts';
import { type ChanceRows, collectChanceRows } from '../chance-rows.ts';
import { type DirectOpening, directFits, predictDirectOpening } from '../direct-opening.ts';
import { type FinishModel, finishChances, finishFits } from '../finish-model.ts';
import type { FitChoices } from '../fit-chance.ts';
import { nameFits, sameChoices } from '../fit-choices.ts';
import { FULL, WHOLE } from '../grades.ts';
import { type GrounderModels, grounderFits, listGrounderFits } from '../grounder-models.ts';
import { type Grounders, INFIELD_SIZE } from '../grounders.ts';
import { type PositionChances, positionFits } from '../reach-model.ts';
import { splitAt, takePlays } from '../take-plays.ts';
import { type TravelModel, travelFit } from '../travel-time.ts';
import { additiveChoices } from './additive-choices.ts';
import { AnswerDraft, type Answers } from './answers.ts';
import { ballOf } from './ball-answers.ts';
import { assignFolds, type FoldSettings } from './folds.ts';
import { ShareTable } from './plainer-models.ts';
import { type PlayedOut, playOut } from './set-marks.ts';
import { TravelDraft, type TravelErrors } from './travel-errors.ts';

/** Answers of every model to balls that it had not seen. */
export interface CrossValidation {
  readonly folds: number;
  readonly games: number;
  readonly opening: Answers;
  readonly set: Answers;
  /** By position, 1 to 6 at index 0 to 5. */
  readonly reach: readonly Answers[];
  readonly promise: readonly Answers[];
  readonly finish: readonly Answers[];
  /** null: no model of travel time, the physical rule serves. */
  readonly travel: TravelErrors | null;
}

/** Models and tables of one fold's other games, against which its balls are held. */
interface PlainModels {
  readonly travel: TravelModel;
  readonly positions: readonly PositionChances[];
  readonly finish: FinishModel;
  readonly direct: DirectOpening;
}

/**
 * Cross-validation over games: for each fold all models are fitted to the games of the other folds - the terms of `built`, its
 * smoothing held, travel time included - and asked about the fold's own balls; beside them a constant, shares by bearing and speed,
 * and additive models of the same covariates. Throws RangeError for too few games.
 */
export function* crossValidation(
  grounders: Grounders,
  built: GrounderModels,
  { folds, seed }: FoldSettings,
): Fitting<CrossValidation> {
  const fold = assignFolds(grounders, folds, seed);
  const models = nameFits(listGrounderFits(built));
  const choices = sameChoices(models);
  const additive = yield* plainFits(grounders, built.travel, additiveChoices(models));
  // The additive models hold the smoothing of a fit to everything, as the book's models do.
  const plainChoices = sameChoices(nameFits(listGrounderFits({ ...built, ...additive })));
  const book = new AnswerBook();
  for (let held = 0; held < folds; held += 1) {
    const { held: own, others } = splitAt(fold, held);
    const train = takePlays(grounders, others);
    const fitted = yield* grounderFits(train, choices);
    const plain = yield* plainFits(train, fitted.travel, plainChoices);
    book.ask(train, takePlays(grounders, own), fitted, plain);
  }
  const games = new Set(Array.from(grounders.row, (row) => grounders.table.game[row])).size;
  return { folds, games, ...book.answers() };
}

/** Additive models. Their chances are given the arrivals of the others, so that travel time is compared by itself. */
function* plainFits(train: Grounders, arrivals: TravelModel, choices: FitChoices): Fitting<PlainModels> {
  const [travel, positions, finish, direct] = yield* together([
    travelFit(train, choices),
    positionFits(train, arrivals, choices),
    finishFits(train, choices),
    directFits(train, choices),
  ]);
  return { travel, positions, finish, direct };
}

/** Collects the answers of all folds. */
class AnswerBook {
  private readonly travel = new TravelDraft();
  private readonly opening = new AnswerDraft('opening', 0);
  private readonly set = new AnswerDraft('set', 0);
  private readonly reach = positions('reach');
  private readonly promise = positions('promise');
  private readonly finish = positions('finish');

  ask(train: Grounders, held: Grounders, fitted: GrounderModels, plain: PlainModels): void {
    this.travel.add(train, held, fitted.travel, plain.travel);
    this.askOpening(train, held, fitted, plain);
    this.askChances(train, held, fitted, plain);
    this.askFinish(train, held, fitted, plain);
  }

  answers(): Omit<CrossValidation, 'folds' | 'games'> {
    const all = (drafts: readonly AnswerDraft[]) => drafts.map((draft) => draft.answers());
    return {
      opening: this.opening.answers(),
      set: this.set.answers(),
      reach: all(this.reach),
      promise: all(this.promise),
      finish: all(this.finish),
      travel: this.travel.errors(),
    };
  }

  /** Grounders with a known line: without it every model but the constant only has its mean to give. */
  private askOpening(train: Grounders, held: Grounders, fitted: GrounderModels, plain: PlainModels): void {
    const shares = new ShareTable();
    for (let at = 0; at < train.count; at += 1)
      if (hasLine(train, at)) shares.add(train.bearingDeg[at], train.exitSpeedMph[at], train.closed[at]);
    const model = predictDirectOpening(fitted.direct, held);
    const additive = predictDirectOpening(plain.direct, held);
    for (let at = 0; at < held.count; at += 1) {
      if (!hasLine(held, at)) continue;
      this.opening.add({ ...ballOf(held, at, shares), model: model[at], additive: additive[at] });
    }
  }

  private askChances(train: Grounders, held: Grounders, fitted: GrounderModels, plain: PlainModels): void {
    const trainRows = collectChanceRows(train, fitted.travel);
    const rows = collectChanceRows(held, fitted.travel);
    const model = playOut(rows, fitted.positions, held.count);
    const additive = playOut(rows, plain.positions, held.count);
    const shares = new ShareTable();
    for (let at = 0; at < train.count; at += 1)
      if (train.grade[at] === FULL) shares.add(train.bearingDeg[at], train.exitSpeedMph[at], train.closed[at]);
    for (let at = 0; at < held.count; at += 1) {
      if (held.grade[at] !== FULL || Number.isNaN(model.set[at])) continue;
      this.set.add({ ...ballOf(held, at, shares), model: model.set[at], additive: additive.set[at] });
    }
    rows.forEach((own, k) => {
      this.askPosition(k, train, trainRows[k], held, own, model, additive);
    });
  }

  private askPosition(
    k: number,
    train: Grounders,
    trainRows: ChanceRows,
    held: Grounders,
    rows: ChanceRows,
    model: PlayedOut,
    additive: PlayedOut,
  ): void {
    const reachShares = new ShareTable();
    const promiseShares = new ShareTable();
    for (let i = 0; i < trainRows.count; i += 1) {
      const at = trainRows.at[i];
      const speed = train.exitSpeedMph[at];
      if (trainRows.atRisk[i]) reachShares.add(train.bearingDeg[at], speed, trainRows.gathered[i]);
      if (trainRows.gathered[i]) promiseShares.add(train.bearingDeg[at], speed, train.closed[at]);
    }
    const { gap, arrival } = rows.covariates;
    for (let i = 0; i < rows.count; i += 1) {
      if (!rows.atRisk[i]) continue;
      const at = rows.at[i];
      const start = (at * INFIELD_SIZE + k) * 2;
      const place = {
        distanceFt: alongLineFt(held.sinBearing[at], held.cosBearing[at], held.starts[start], held.starts[start + 1]),
        gapFt: gap[i],
        arrivalS: arrival[i],
      };
      this.reach[k].add({
        ...ballOf(held, at, reachShares),
        ...place,
        outcome: rows.gathered[i],
        model: model.reach[k][i],
        additive: additive.reach[k][i],
      });
      if (!rows.gathered[i]) continue;
      const chances = { model: model.promise[k][i], additive: additive.promise[k][i] };
      this.promise[k].add({ ...ballOf(held, at, promiseShares), ...place, ...chances });
    }
  }

  private askFinish(train: Grounders, held: Grounders, fitted: GrounderModels, plain: PlainModels): void {
    const shares = Array.from({ length: INFIELD_SIZE }, () => new ShareTable());
    for (let at = 0; at < train.count; at += 1) {
      const by = infieldGatherer(train, at);
      if (by > 0) shares[by - 1].add(train.bearingDeg[at], train.exitSpeedMph[at], train.closed[at]);
    }
    const model = finishChances(fitted.finish, held);
    const additive = finishChances(plain.finish, held);
    for (let at = 0; at < held.count; at += 1) {
      const by = infieldGatherer(held, at);
      if (by === 0) continue;
      const { gatherXFt, gatherYFt } = held.table;
      this.finish[by - 1].add({
        ...ballOf(held, at, shares[by - 1]),
        distanceFt: Math.hypot(gatherXFt[held.row[at]], gatherYFt[held.row[at]]),
        model: model[at],
        additive: additive[at],
      });
    }
  }
}

function positions(question: 'reach' | 'promise' | 'finish'): AnswerDraft[] {
  return Array.from({ length: INFIELD_SIZE }, (_, k) => new AnswerDraft(question, k + 1));
}

function hasLine(grounders: Grounders, at: number): boolean {
  return !Number.isNaN(grounders.bearingDeg[at]) && !Number.isNaN(grounders.exitSpeedMph[at]);
}

/** Position of the infielder who was seen to gather, else 0. */
function infieldGatherer(grounders: Grounders, at: number): number {
  const by = grounders.table.gatheredBy[grounders.row[at]];
  return by <= INFIELD_SIZE && grounders.grade[at] !== WHOLE ? by : 0;
}
