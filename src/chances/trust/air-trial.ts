import { type FittedModel, predictMean } from '../../models/fitted-model.ts';
import { type Fitting, together } from '../../models/fitting.ts';
import { AIR_MEN, type AirBalls } from '../air/air-balls.ts';
import { type AirDirectOpening, predictAirDirect } from '../air/air-direct.ts';
import { type AirModels, airChanceFits, listAirFits } from '../air/air-models.ts';
import { type AirData, collectAirRows } from '../air/air-rows.ts';
import { carryFits, type Flights, projectFlights } from '../air/carry.ts';
import type { KeptModel } from '../air/kept-model.ts';
import { nameFits, sameChoices } from '../fit-choices.ts';
import { splitAt, takePlays } from '../take-plays.ts';
import { additiveChoices } from './additive-choices.ts';
import { AnswerDraft, type Answers } from './answers.ts';
import { ballOf } from './ball-answers.ts';
import { assignFolds, type FoldSettings } from './folds.ts';
import { ShareTable } from './plainer-models.ts';

interface AirChanceModels {
  readonly reach: readonly FittedModel[];
  readonly kept: KeptModel;
  readonly direct: readonly AirDirectOpening[];
}

/**
 * Answers about balls in the air on games that the models had not seen, as crossValidation gets those about grounders: the
 * direct opening, reach by position, and whether a ball that somebody got to was kept. Flights are projected by the fold's own model of carry.
 */
export function* airTrial(
  balls: AirBalls,
  built: AirModels,
  { folds, seed }: FoldSettings,
): Fitting<readonly Answers[]> {
  const fold = assignFolds(balls, folds, seed);
  const own = nameFits(listAirFits(built));
  const allFlights = projectFlights(balls, built.carry);
  const additive = yield* airChanceFits(balls, allFlights, additiveChoices(own));
  const plainer = nameFits(listAirFits({ ...built, ...additive }));
  const book = new AirAnswers();
  for (let k = 0; k < folds; k += 1) {
    const { held, others } = splitAt(fold, k);
    const train = takePlays(balls, others);
    const asked = takePlays(balls, held);
    const carry = yield* carryFits(train, sameChoices(own));
    const flights = projectFlights(train, carry);
    const [model, plain] = yield* together([
      airChanceFits(train, flights, sameChoices(own)),
      airChanceFits(train, flights, sameChoices(plainer)),
    ]);
    book.ask({ balls: train, flights }, { balls: asked, flights: projectFlights(asked, carry) }, model, plain);
  }
  return book.answers();
}

/** Balls with their flights. */
interface Flown {
  readonly balls: AirBalls;
  readonly flights: Flights;
}

/** Collects the answers of all folds. */
class AirAnswers {
  private readonly opening = new AnswerDraft('air opening', 0);
  private readonly reach = Array.from({ length: AIR_MEN }, (_, k) => new AnswerDraft('air reach', k + 1));
  private readonly kept = new AnswerDraft('kept', 0);

  answers(): Answers[] {
    return [this.opening, ...this.reach, this.kept].map((draft) => draft.answers()).filter(({ count }) => count > 0);
  }

  ask(train: Flown, held: Flown, model: AirChanceModels, plain: AirChanceModels): void {
    this.askOpening(train, held, model, plain);
    const seen = collectAirRows(train.balls, train.flights);
    const asked = collectAirRows(held.balls, held.flights);
    this.reach.forEach((draft, k) => {
      const answers = [model, plain].map(({ reach }) =>
        predictMean(reach[k], asked.reach[k].covariates, asked.reach[k].count),
      );
      addRows(draft, train, seen.reach[k], held, asked.reach[k], answers);
    });
    const answers = [model, plain].map(({ kept: { fitted, share } }) =>
      fitted === null
        ? new Float64Array(asked.kept.count).fill(share)
        : predictMean(fitted, asked.kept.covariates, asked.kept.count),
    );
    // Where too few were dropped to learn from there is no model to ask.
    if (model.kept.fitted !== null) addRows(this.kept, train, seen.kept, held, asked.kept, answers);
  }

  /** Balls of which it is known where they came down or were hit; each kind has a table of its own. */
  private askOpening(train: Flown, held: Flown, model: AirChanceModels, plain: AirChanceModels): void {
    const shares = new Map<number, ShareTable>();
    const all = new ShareTable();
    const { balls } = train;
    for (let at = 0; at < balls.count; at += 1) {
      const own = shares.get(balls.kind[at]) ?? new ShareTable();
      shares.set(balls.kind[at], own);
      for (const each of [own, all]) each.add(balls.bearingDeg[at], balls.exitSpeedMph[at], balls.closed[at]);
    }
    const ours = predictAirDirect(model.direct, held.balls, held.flights);
    const theirs = predictAirDirect(plain.direct, held.balls, held.flights);
    for (let at = 0; at < held.balls.count; at += 1) {
      if (Number.isNaN(held.flights.distanceFt[at])) continue;
      this.opening.add({
        ...ballOf(held.balls, at, shares.get(held.balls.kind[at]) ?? all),
        constant: all.mean,
        distanceFt: held.flights.distanceFt[at],
        model: ours[at],
        additive: theirs[at],
      });
    }
  }
}

/** The rows of one question and position: what was learnt makes the table of shares. */
function addRows(
  draft: AnswerDraft,
  train: Flown,
  seen: AirData,
  held: Flown,
  asked: AirData,
  [model, additive]: readonly Float64Array[],
): void {
  const shares = new ShareTable();
  seen.at.forEach((at, i) => {
    shares.add(train.balls.bearingDeg[at], train.balls.exitSpeedMph[at], seen.response[i]);
  });
  asked.at.forEach((at, i) => {
    draft.add({
      ...ballOf(held.balls, at, shares),
      outcome: asked.response[i],
      distanceFt: held.flights.distanceFt[at],
      model: model[i],
      additive: additive[i],
    });
  });
}
