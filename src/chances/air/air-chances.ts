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
import { hashText } from '../../numeric/hash.ts';
import { expit } from '../../numeric/logistic.ts';
import type { DefenderChances, SpotFacts } from '../defender-chances.ts';
import { AIR_MEN, type AirBalls } from './air-balls.ts';
import type { AirModels } from './air-models.ts';
import { WIDEST_SHORT_FT } from './air-rows.ts';
import { type Flights, projectFlights } from './carry.ts';
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

/** Chances of all nine on the balls in the air of a table, in chance order by required speed; a catch is an out. */
export class AirChances implements DefenderChances {
  private readonly balls: AirBalls;
  private readonly flights: Flights;
  private readonly geometry = new RunGeometry();
  private readonly curves: readonly PositionCurves[];
  private readonly standIns: StandIns;
  /** What the ball alone adds to each man's logit. */
  private readonly ballPart = new Float64Array(AIR_MEN);
  private kind = 0;
  private play = -1;
  private flight = -1;
  private line = -1;
  reach = 0;
  promise = 1;

  constructor(balls: AirBalls, models: AirModels) {
    this.balls = balls;
    this.flights = projectFlights(balls, models.carry);
    this.standIns = new StandIns(balls, this.flights);
    this.curves = models.reach.map((reach, k) => ({
      reach,
      shortTime: surfaceOf(reach, 'short', 'time'),
      run: surfaceOf(reach, 'across', 'in'),
      height: curveOf(reach, 'height'),
      speed: curveOf(reach, 'speed'),
      hop: k < 6 ? curveOf(reach, 'hop') : null,
      wall: k >= 6 ? surfaceOf(reach, 'bearing', 'depth') : null,
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
    const flight = Number.isNaN(flights.distanceFt[at]) ? this.standIns.flightFor(at, lender) : at;
    const line = Number.isNaN(balls.bearingDeg[at]) ? lender : at;
    if (at === this.play && flight === this.flight && line === this.line) return;
    this.play = at;
    this.kind = balls.kind[at];
    this.flight = flight;
    this.line = line;
    const distance = flights.distanceFt[flight];
    this.geometry.setBall(flights.sin[line], flights.cos[line], distance, flights.hangS[flight]);
    const bearing = bearingDegOf(flights.sin[line], flights.cos[line]);
    const speed = balls.exitSpeedMph[at];
    this.curves.forEach((curves, k) => {
      this.ballPart[k] =
        curves.reach.coefficients[0] +
        levelEffect(curves.reach, 'kind', balls.kind[at]) +
        (Number.isNaN(speed) ? 0 : evaluateCurve(curves.speed, speed)) +
        (curves.wall === null ? 0 : evaluateSurface(curves.wall, bearing, distance));
    });
  }

  standAt(k: number, xFt: number, yFt: number): void {
    const { geometry } = this;
    geometry.standAt(xFt, yFt, takesHops(k, this.kind));
    // A man of whom no chance was ever seen is given none: there is nothing to say what it would be.
    if (!(geometry.shortFt <= WIDEST_SHORT_FT) || this.curves[k].reach.record.rows === 0) {
      this.reach = 0;
      return;
    }
    const curves = this.curves[k];
    this.reach = expit(
      this.ballPart[k] +
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

/** Flights for balls of which nothing tells how they flew: those of other balls of the same kind, tied to the lender. */
class StandIns {
  private readonly balls: AirBalls;
  /** Balls with a flight by kind, in order of play id. */
  private readonly byKind = new Map<number, number[]>();

  constructor(balls: AirBalls, flights: Flights) {
    this.balls = balls;
    const { table, row } = balls;
    if (!flights.distanceFt.some(Number.isNaN)) return;
    for (let at = 0; at < balls.count; at += 1) {
      if (Number.isNaN(flights.distanceFt[at])) continue;
      const list = this.byKind.get(balls.kind[at]);
      if (list === undefined) this.byKind.set(balls.kind[at], [at]);
      else list.push(at);
    }
    for (const list of this.byKind.values())
      list.sort((a, b) => (table.playId[row[a]] < table.playId[row[b]] ? -1 : 1));
  }

  flightFor(at: number, lender: number): number {
    const { table, row, kind } = this.balls;
    const list = this.byKind.get(kind[at]);
    if (kind[lender] === kind[at] || list === undefined) return lender;
    return list[(hashText(table.playId[row[lender]]) >>> 0) % list.length];
  }
}
