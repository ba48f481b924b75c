import { gapFt } from '../diamond/ball-line.ts';
import { NEAREST_POINT_FT } from './chance-order.ts';
import type { DefenderChances, SpotFacts } from './defender-chances.ts';
import { flagBit } from './grades.ts';
import type { InfieldModels } from './grounder-models.ts';
import type { Grounders } from './grounders.ts';
import { type Ball, InfieldChances } from './infield-chances.ts';

const NO_BEARING = flagBit('no_bearing');
const NO_SPEED = flagBit('no_speed');

/** Indexes (position - 1) of the infielders who move with ball and batter; pitcher and catcher do not. */
export const MOVABLE_ON_GROUNDERS = [2, 3, 4, 5] as const;

/** What the chances ask of grounders: the balls. */
export type GroundBalls = Pick<
  Grounders,
  'flags' | 'sinBearing' | 'cosBearing' | 'exitSpeedMph' | 'launchAngleDeg' | 'surface' | 'batterToFirstS' | 'state'
>;

/** Chances of the infielders on the grounders of a table, in chance order by when a usual man would meet the ball. */
export class GrounderChances implements DefenderChances {
  private readonly grounders: GroundBalls;
  private readonly infield: InfieldChances;
  private readonly ball: Ball = {
    sinBearing: 0,
    cosBearing: 1,
    exitSpeedMph: 0,
    launchAngleDeg: 0,
    surface: 0,
    batterToFirstS: 0,
    state: 0,
  };
  /** The plays that the ball's facts came from, so that the same ball is not set anew for every draw. */
  private play = -1;
  private line = -1;
  private speed = -1;
  readonly isCalledFor = false;
  turn = Number.NaN;
  reach = 0;
  promise = 0;

  constructor(grounders: GroundBalls, models: InfieldModels) {
    this.grounders = grounders;
    this.infield = new InfieldChances(models);
  }

  setBall(at: number, lender: number): void {
    const g = this.grounders;
    const line = g.flags[at] & NO_BEARING ? lender : at;
    const speed = g.flags[at] & NO_SPEED ? lender : at;
    if (at === this.play && line === this.line && speed === this.speed) return;
    this.play = at;
    this.line = line;
    this.speed = speed;
    this.ball.sinBearing = g.sinBearing[line];
    this.ball.cosBearing = g.cosBearing[line];
    this.ball.exitSpeedMph = g.exitSpeedMph[speed];
    this.ball.launchAngleDeg = g.launchAngleDeg[at];
    this.ball.surface = g.surface[at];
    this.ball.batterToFirstS = g.batterToFirstS[at];
    this.ball.state = g.state[at];
    this.infield.setBall(this.ball);
  }

  standAt(k: number, xFt: number, yFt: number): void {
    this.infield.standAt(k, xFt, yFt);
    this.turn = this.infield.turn;
    this.reach = this.infield.reach;
    this.promise = this.infield.promise;
  }

  /** Seconds after contact at which the ball chosen last is this far along its line. */
  secondsTo(distanceFt: number): number {
    return this.infield.secondsTo(distanceFt);
  }

  /**
   * Chance that the man at a start gathers a ball hit as hard, but toward another spot: he runs there, and has the time
   * that the ball takes to it. At the point of the ball's own line that is nearest to him it is his reach. Elsewhere the
   * ball's two sides are weighed by where the spot lies from him (docs/decisions/090-area-covered.md).
   */
  cover(k: number, startXFt: number, startYFt: number, spotXFt: number, spotYFt: number): number {
    const run = Math.hypot(spotXFt - startXFt, spotYFt - startYFt);
    const fromHome = Math.hypot(spotXFt, spotYFt);
    const arrival = this.infield.secondsTo(Math.max(fromHome, NEAREST_POINT_FT));
    const aside = fromHome > 0 ? gapFt(spotXFt / fromHome, spotYFt / fromHome, startXFt, startYFt) : 0;
    const towardFirst = run > 0 ? 0.5 * (1 + aside / run) : 0.5;
    return (
      towardFirst * this.infield.reachAt(k, run, arrival) + (1 - towardFirst) * this.infield.reachAt(k, -run, arrival)
    );
  }

  describe(): SpotFacts {
    const { gap, arrival } = this.infield;
    return { gapFt: gap, runInFt: Number.NaN, runAcrossFt: Number.NaN, arrivalS: arrival };
  }
}
