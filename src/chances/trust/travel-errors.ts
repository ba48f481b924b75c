import { predictLinear } from '../../models/fitted-model.ts';
import type { Grounders } from '../grounders.ts';
import { BallClock, type TravelModel, travelData } from '../travel-time.ts';
import { ShareTable } from './plainer-models.ts';

/** Answers about travel time; `rule` is the physical default, which needs no data. */
export const TRAVEL_ANSWERERS = ['model', 'rule', 'constant', 'bins', 'additive'] as const;
export type TravelAnswerer = (typeof TRAVEL_ANSWERERS)[number];

/** Errors of travel times of balls that the models had not seen, seconds, predicted less recorded. */
export interface TravelErrors {
  readonly count: number;
  readonly rmsS: Readonly<Record<TravelAnswerer, number>>;
  /** Mean error of the model, and the root mean square of each cell by distance. */
  readonly biasS: number;
  readonly byDistance: readonly { readonly fromFt: number; readonly n: number; readonly biasS: number }[];
}

const DISTANCE_STEP_FT = 25;
const DISTANCE_STEPS = 8;

/** Collects the errors of one fold after another. */
export class TravelDraft {
  private count = 0;
  private missing = false;
  private readonly squares = new Float64Array(TRAVEL_ANSWERERS.length);
  private bias = 0;
  private readonly n = new Float64Array(DISTANCE_STEPS);
  private readonly biases = new Float64Array(DISTANCE_STEPS);

  add(train: Grounders, held: Grounders, fitted: TravelModel, additive: TravelModel): void {
    if (fitted.fitted === null || additive.fitted === null) {
      this.missing = true;
      return;
    }
    const known = travelData(train);
    // Times do not lie between 0 and 1, but a table of means by bearing and speed is the same arithmetic.
    const means = new ShareTable();
    for (let i = 0; i < known.count; i += 1)
      means.add(train.bearingDeg[known.at[i]], train.exitSpeedMph[known.at[i]], known.response[i]);
    const asked = travelData(held);
    const model = predictLinear(fitted.fitted, asked.covariates, asked.count);
    const plain = predictLinear(additive.fitted, asked.covariates, asked.count);
    const rule = new BallClock({ fitted: null });
    for (let i = 0; i < asked.count; i += 1) {
      const at = asked.at[i];
      const distance = asked.covariates.distance[i];
      const seconds = held.table.gatherTimeS[held.row[at]];
      // The response is the log of the slowdown: recorded time over the time at constant speed.
      const unslowed = seconds / Math.exp(asked.response[i]);
      rule.setBall(held.exitSpeedMph[at], held.launchAngleDeg[at], held.surface[at]);
      const answers = [
        unslowed * Math.exp(model[i]),
        rule.secondsTo(distance),
        unslowed * Math.exp(means.mean),
        unslowed * Math.exp(means.share(held.bearingDeg[at], held.exitSpeedMph[at])),
        unslowed * Math.exp(plain[i]),
      ];
      answers.forEach((answer, k) => {
        this.squares[k] += (answer - seconds) ** 2;
      });
      const step = Math.min(DISTANCE_STEPS - 1, Math.floor(distance / DISTANCE_STEP_FT));
      this.count += 1;
      this.bias += answers[0] - seconds;
      this.n[step] += 1;
      this.biases[step] += answers[0] - seconds;
    }
  }

  /** null when some fold had no model of its own. */
  errors(): TravelErrors | null {
    if (this.missing || this.count === 0) return null;
    const rms = TRAVEL_ANSWERERS.map((name, k) => [name, Math.sqrt(this.squares[k] / this.count)]);
    return {
      count: this.count,
      rmsS: Object.fromEntries(rms) as Record<TravelAnswerer, number>,
      biasS: this.bias / this.count,
      byDistance: Array.from(this.n, (n, k) => ({ fromFt: k * DISTANCE_STEP_FT, n, biasS: this.biases[k] / n })).filter(
        ({ n }) => n > 0,
      ),
    };
  }
}
