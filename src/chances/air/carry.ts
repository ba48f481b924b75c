import { radians } from '../../diamond/bearing.ts';
import type { ModelData } from '../../models/fit-model.ts';
import { type FittedModel, predictLinear } from '../../models/fitted-model.ts';
import { type Fitting, oneFit, together } from '../../models/fitting.ts';
import type { Term } from '../../models/terms.ts';
import { chosenSettings, type FitChoices } from '../fit-chance.ts';
import type { AirBalls } from './air-balls.ts';
import { latestLandingS } from './flight.ts';

/**
 * How far and how long a ball flies by how it left the bat, fitted on balls that nobody caught. Where a ball was caught the
 * data say where the glove was, not where the ball would have come down: a liner at the shortstop would seem to have been
 * hit to him. Each ball's flight is therefore taken on to the ground, so that catches and falls are measured alike.
 */
export interface CarryModel {
  /** Null when too few balls fell with speed and launch angle recorded. */
  readonly fitted: { readonly distance: FittedModel; readonly hang: FittedModel } | null;
}

const FEWEST_FALLS = 200;
/** What is left of a ball's mean speed along its line when it comes down; usual value, from memory. */
const LATE_SPEED_SHARE = 0.75;
/** Height of a catch when nothing tells, as a share of the height that a glove can be at. */
const USUAL_HEIGHT_SHARE = 0.5;

const CARRY_TERMS: readonly Term[] = [
  {
    kind: 'tensor',
    margins: [
      { covariate: 'speed', lo: 30, hi: 115, segments: 8 },
      { covariate: 'launch', lo: -5, hi: 80, segments: 12 },
    ],
  },
];

export function* carryFits(balls: AirBalls, choices: FitChoices = {}): Fitting<CarryModel> {
  const rows: number[] = [];
  for (let at = 0; at < balls.count; at += 1) {
    const known = balls.exitSpeedMph[at] + balls.launchAngleDeg[at] + balls.hangTimeS[at] + distanceOf(balls, at);
    if (balls.inGlove[at] === 0 && !Number.isNaN(known)) rows.push(at);
  }
  if (rows.length < FEWEST_FALLS) return { fitted: null };
  const covariates = covariatesOf(balls, rows);
  const fit = (name: string, response: (at: number) => number) => {
    const terms = choices.terms?.(name, CARRY_TERMS) ?? CARRY_TERMS;
    const data: ModelData = { count: rows.length, covariates, response: Float64Array.from(rows, response) };
    const settings = { ridge: 1e-6, ...chosenSettings(name, terms, choices) };
    return oneFit({ name, family: 'gaussian', terms }, settings, () => data);
  };
  const [distance, hang] = yield* together([
    fit('carry distance', (at) => distanceOf(balls, at)),
    fit('carry hang time', (at) => balls.hangTimeS[at]),
  ]);
  return { fitted: { distance, hang } };
}

/** Each ball's whole flight to the ground. Columns have length `count`; NaN where neither record nor model tells. */
export interface Flights {
  readonly sin: Float64Array;
  readonly cos: Float64Array;
  readonly distanceFt: Float64Array;
  readonly hangS: Float64Array;
}

/**
 * A ball that fell flew as recorded. One that was caught goes on from the glove for as long as the carry model says, but not
 * longer than a ball within a glove's height can. One without a record flies as the model says.
 */
export function projectFlights(balls: AirBalls, carry: CarryModel): Flights {
  const { count } = balls;
  const flights = {
    sin: new Float64Array(count),
    cos: new Float64Array(count),
    distanceFt: new Float64Array(count),
    hangS: new Float64Array(count),
  };
  const covariates = covariatesOf(balls, [...Array(count).keys()]);
  const usual = (model: FittedModel | undefined) =>
    model === undefined ? new Float64Array(count).fill(Number.NaN) : predictLinear(model, covariates, count);
  const usualDistance = usual(carry.fitted?.distance);
  const usualHang = usual(carry.fitted?.hang);
  for (let at = 0; at < count; at += 1) {
    const bearing = radians(balls.bearingDeg[at]);
    const distance = distanceOf(balls, at);
    const hang = balls.hangTimeS[at];
    const launchKnown = !Number.isNaN(balls.exitSpeedMph[at] + balls.launchAngleDeg[at]);
    const recorded = distance > 0 && hang > 0;
    // The landing's own direction where there is one: a ball may curve off its line.
    flights.sin[at] = distance > 0 ? balls.landingXFt[at] / distance : Math.sin(bearing);
    flights.cos[at] = distance > 0 ? balls.landingYFt[at] / distance : Math.cos(bearing);
    if (!recorded) {
      flights.distanceFt[at] = launchKnown ? Math.max(usualDistance[at], 1) : Number.NaN;
      flights.hangS[at] = launchKnown ? Math.max(usualHang[at], 0.3) : Number.NaN;
    } else if (balls.inGlove[at] === 0) {
      flights.distanceFt[at] = distance;
      flights.hangS[at] = hang;
    } else {
      const latest = latestLandingS(hang);
      const guess =
        launchKnown && !Number.isNaN(usualHang[at]) ? usualHang[at] : hang + USUAL_HEIGHT_SHARE * (latest - hang);
      const more = Math.min(Math.max(guess, hang), latest) - hang;
      const mean = distance / hang;
      const told = launchKnown && guess > hang ? (usualDistance[at] - distance) / (guess - hang) : Number.NaN;
      const late = Math.min(Math.max(Number.isNaN(told) ? LATE_SPEED_SHARE * mean : told, 0.4 * mean), mean);
      flights.distanceFt[at] = distance + more * late;
      flights.hangS[at] = hang + more;
    }
  }
  return flights;
}

function distanceOf(balls: AirBalls, at: number): number {
  return Math.hypot(balls.landingXFt[at], balls.landingYFt[at]);
}

function covariatesOf(balls: AirBalls, rows: readonly number[]) {
  return {
    speed: Float64Array.from(rows, (at) => balls.exitSpeedMph[at]),
    launch: Float64Array.from(rows, (at) => balls.launchAngleDeg[at]),
  };
}
