import { bearingDegOf } from '../../diamond/bearing.ts';
import type { FittedModel } from '../../models/fitted-model.ts';
import {
  type Curve,
  curveOf,
  evaluateCurve,
  evaluateSurface,
  levelEffect,
  type Surface,
  surfaceOf,
} from '../../models/surface.ts';
import { expit } from '../../numeric/logistic.ts';
import type { DefenderChances, SpotFacts } from '../defender-chances.ts';
import { AIR_MEN, type AirBalls } from './air-balls.ts';
import type { AirModels } from './air-models.ts';
import { WIDEST_SHORT_FT } from './air-rows.ts';
import type { Flights } from './carry.ts';
import type { KeptModel } from './kept-model.ts';
import { RunGeometry, takesHops } from './run-geometry.ts';

/** Indexes (position - 1) of the men who move with ball and batter: all but pitcher and catcher. */
export const MOVABLE_IN_THE_AIR = [2, 3, 4, 5, 6, 7, 8] as const;

interface PositionCurves {
  readonly reach: FittedModel;
  readonly shortTime: Surface;
  readonly run: Surface;
  readonly height: Curve;
  readonly speed: Curve;
  /** Infielders' only. */
  readonly hop: Curve | null;
  /** Outfielders' only. */
  readonly wall: Surface | null;
}

/** What the chances ask of balls in the air beside their flights. */
export type AirBallFacts = Pick<AirBalls, 'kind' | 'bearingDeg' | 'exitSpeedMph'>;

/** What the chances of a catch rest on. */
export type CatchModels = Pick<AirModels, 'reach' | 'kept'>;

/**
 * Chances of all nine on balls whose flights are known, in chance order by required speed. Reach is to get there; the promise
 * is to keep it, and a catch is an out. Men call for a ball in the air, so that one leaves it to another.
 */
export class FlightChances implements DefenderChances {
  readonly balls: AirBallFacts;
  readonly flights: Flights;
  private readonly geometry = new RunGeometry();
  /** Of another ball, so that the one chosen stays. */
  private readonly aside = new RunGeometry();
  private readonly curves: readonly PositionCurves[];
  private readonly kept: KeptModel;
  private readonly keptShort: Curve | null;
  private bearingDeg = Number.NaN;
  /** What the ball alone adds to each man's logit; NaN until he is asked about. */
  private readonly ballPart = new Float64Array(AIR_MEN);
  private kind = 0;
  private play = -1;
  private flight = -1;
  private line = -1;
  readonly isCalledFor = true;
  reach = 0;
  promise = 1;

  constructor(balls: AirBallFacts, flights: Flights, { reach, kept }: CatchModels) {
    this.balls = balls;
    this.flights = flights;
    this.kept = kept;
    this.keptShort = kept.fitted && curveOf(kept.fitted, 'short');
    this.curves = reach.map((model, k) => ({
      reach: model,
      shortTime: surfaceOf(model, 'short', 'time'),
      run: surfaceOf(model, 'across', 'in'),
      height: curveOf(model, 'height'),
      speed: curveOf(model, 'speed'),
      hop: k < 6 ? curveOf(model, 'hop') : null,
      wall: k >= 6 ? surfaceOf(model, 'bearing', 'depth') : null,
    }));
  }

  /** Required speed, ft/s. */
  get turn(): number {
    return this.geometry.needFtS;
  }

  /** Feet that the man of the last spot would be short of a usual run, and the parts of his run. */
  get run(): Readonly<RunGeometry> {
    return this.geometry;
  }

  setBall(at: number, lender: number): void {
    const { balls, flights } = this;
    const flight = Number.isNaN(flights.distanceFt[at]) ? this.flightFor(at, lender) : at;
    const line = Number.isNaN(balls.bearingDeg[at]) ? lender : at;
    if (at === this.play && flight === this.flight && line === this.line) return;
    this.play = at;
    this.kind = balls.kind[at];
    this.flight = flight;
    this.line = line;
    const distance = flights.distanceFt[flight];
    this.geometry.setBall(flights.sin[line], flights.cos[line], distance, flights.hangS[flight]);
    this.bearingDeg = bearingDegOf(flights.sin[line], flights.cos[line]);
    this.ballPart.fill(Number.NaN);
  }

  /**
   * Chance that the man at a start catches a ball like the one chosen last, up as long, that comes down at another spot;
   * at its own spot it is his reach.
   */
  cover(k: number, startXFt: number, startYFt: number, spotXFt: number, spotYFt: number): number {
    const { flights, flight, aside } = this;
    const distance = Math.hypot(spotXFt, spotYFt);
    if (distance === 0) return 0;
    aside.setBall(spotXFt / distance, spotYFt / distance, distance, flights.hangS[flight]);
    return this.reachOf(k, aside, startXFt, startYFt, this.ballLogit(k, bearingDegOf(spotXFt, spotYFt), distance));
  }

  /** What the ball alone adds to a man's logit when it comes down at this bearing and distance. */
  private ballLogit(k: number, bearingDeg: number, distanceFt: number): number {
    const { reach, speed, wall } = this.curves[k];
    const mph = this.balls.exitSpeedMph[this.play];
    return (
      reach.coefficients[0] +
      levelEffect(reach, 'kind', this.kind) +
      (Number.isNaN(mph) ? 0 : evaluateCurve(speed, mph)) +
      (wall === null ? 0 : evaluateSurface(wall, bearingDeg, distanceFt))
    );
  }

  /** The ball whose flight serves for one of which nothing tells how it flew. */
  protected flightFor(_at: number, lender: number): number {
    return lender;
  }

  standAt(k: number, xFt: number, yFt: number): void {
    if (Number.isNaN(this.ballPart[k]))
      this.ballPart[k] = this.ballLogit(k, this.bearingDeg, this.flights.distanceFt[this.flight]);
    this.reach = this.reachOf(k, this.geometry, xFt, yFt, this.ballPart[k]);
    this.promise = this.reach > 0 ? this.keptAt(this.geometry.shortFt) : 0;
  }

  /** Chance that a man who is this many feet short of a usual run and gets there keeps the ball. */
  private keptAt(shortFt: number): number {
    const { fitted, share } = this.kept;
    if (fitted === null || this.keptShort === null) return share;
    return expit(
      fitted.coefficients[0] + levelEffect(fitted, 'kind', this.kind) + evaluateCurve(this.keptShort, shortFt),
    );
  }

  private reachOf(k: number, geometry: RunGeometry, xFt: number, yFt: number, ballPart: number): number {
    geometry.standAt(xFt, yFt, takesHops(k, this.kind));
    const curves = this.curves[k];
    // A man of whom no chance was ever seen is given none: there is nothing to say what it would be.
    if (!(geometry.shortFt <= WIDEST_SHORT_FT) || curves.reach.record.rows === 0) return 0;
    return expit(
      ballPart +
        evaluateSurface(curves.shortTime, geometry.shortFt, geometry.timeS) +
        evaluateSurface(curves.run, geometry.acrossFt, geometry.inFt) +
        evaluateCurve(curves.height, geometry.heightFt) +
        (curves.hop === null ? 0 : evaluateCurve(curves.hop, geometry.hopFt)),
    );
  }

  describe(): SpotFacts {
    const { inFt, acrossFt, timeS: arrivalS } = this.geometry;
    return { gapFt: Number.NaN, runInFt: inFt, runAcrossFt: acrossFt, arrivalS };
  }
}
