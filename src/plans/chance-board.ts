import { type CatchModels, FlightChances } from '../chances/air/flight-chances.ts';
import { WIDEST_GAP_FT } from '../chances/chance-order.ts';
import type { InfieldModels } from '../chances/grounder-models.ts';
import { InfieldChances } from '../chances/infield-chances.ts';
import { gapFt } from '../diamond/ball-line.ts';
import { radians } from '../diamond/bearing.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { BallClass, SkillKind } from '../ratings/skills.ts';
import { type BallColumns, GROUND } from './seen-balls.ts';

/** Men on the field: position - 1 is a man's index. */
export const NINE = 9;
const INFIELDERS = 6;

/** What stands before a pitch beside the balls: who runs, and the base-out state (outs * 8 + bases). */
export interface PitchFacts {
  readonly state: number;
  readonly batterToFirstS: number;
}

/** Fitted chances of a book; a class of balls that it lacks has none. */
export interface PlanModels {
  readonly grounders: InfieldModels | null;
  readonly air: CatchModels | null;
}

/** How much better than average the men are: a logit shift of reach and of finish by position and class of balls (`--own-men`). */
export type SkillShift = (kind: SkillKind, position: number, ballClass: BallClass) => number;

/**
 * Answers of one man on many balls and spots: index ball * spots + spot. Turn is his place in the chance order, smallest first;
 * turn and promise are not told where reach is 0.
 */
export interface SpotAnswers {
  readonly spots: number;
  readonly turn: Float32Array;
  readonly reach: Float32Array;
  readonly promise: Float32Array;
}

/** Chances of any man at any spot on a fixed list of balls. Holds scratch space: one a thread. */
export class ChanceBoard {
  readonly balls: BallColumns;
  private readonly facts: PitchFacts;
  private readonly ground: InfieldChances | null;
  private readonly air: FlightChances | null;
  private readonly reachOdds = new Float64Array(NINE).fill(1);
  private readonly catchOdds = new Float64Array(NINE).fill(1);
  private readonly finishOdds = new Float64Array(NINE).fill(1);
  /** The last man and spot. */
  turn = 0;
  reach = 0;
  promise = 0;
  private onGround = true;
  private readonly flights: ReturnType<typeof flightsOf>;

  constructor(models: PlanModels, balls: BallColumns, facts: PitchFacts, shiftOf?: SkillShift) {
    this.balls = balls;
    this.facts = facts;
    this.ground = models.grounders === null ? null : new InfieldChances(models.grounders);
    this.flights = flightsOf(balls);
    this.air = models.air === null ? null : new FlightChances(balls, this.flights, models.air);
    if (shiftOf === undefined) return;
    for (let k = 0; k < NINE; k += 1) {
      this.reachOdds[k] = Math.exp(shiftOf('reach', k + 1, 'ground'));
      this.catchOdds[k] = Math.exp(shiftOf('reach', k + 1, 'air'));
      this.finishOdds[k] = Math.exp(shiftOf('finish', k + 1, 'ground'));
    }
  }

  /** Takes ball `at`; false when the book has no models for such a ball, and nobody has a chance. */
  setBall(at: number): boolean {
    const { balls, facts } = this;
    this.onGround = balls.kind[at] === GROUND;
    if (!this.onGround) {
      this.air?.setBall(at, at);
      return this.air !== null;
    }
    this.ground?.setBall({
      sinBearing: this.flights.sin[at],
      cosBearing: this.flights.cos[at],
      exitSpeedMph: balls.exitSpeedMph[at],
      launchAngleDeg: balls.launchAngleDeg[at],
      surface: balls.surface[at],
      ...facts,
    });
    return this.ground !== null;
  }

  /** Whether ball `at` is a grounder of which the man of index k has no chance at a spot: told without taking the ball. */
  isBeyond(at: number, k: number, xFt: number, yFt: number): boolean {
    if (this.balls.kind[at] !== GROUND) return false;
    return k >= INFIELDERS || !(Math.abs(gapFt(this.flights.sin[at], this.flights.cos[at], xFt, yFt)) <= WIDEST_GAP_FT);
  }

  /** Puts the man of index k at a spot on the ball taken and fills turn, reach and promise. */
  standAt(k: number, xFt: number, yFt: number): void {
    const chances = this.onGround ? this.ground! : this.air!;
    if (this.onGround && k >= INFIELDERS) {
      this.reach = 0;
      return;
    }
    chances.standAt(k, xFt, yFt);
    this.turn = chances.turn;
    this.reach = chances.reach;
    this.promise = chances.promise;
    const odds = this.onGround ? this.reachOdds[k] : this.catchOdds[k];
    if (odds !== 1) this.reach = shiftByOdds(this.reach, odds);
    if (this.onGround && this.finishOdds[k] !== 1) this.promise = shiftByOdds(this.promise, this.finishOdds[k]);
  }

  /** Each man of `men` (indexes) at each of his spots (x, y pairs), on every ball. */
  answer(men: readonly number[], spotsOf: readonly Float64Array[]): SpotAnswers[] {
    const { count } = this.balls;
    const answers = spotsOf.map((pairs) => {
      const spots = pairs.length / 2;
      const column = () => new Float32Array(count * spots);
      return { spots, turn: column(), reach: column(), promise: column() };
    });
    for (let at = 0; at < count; at += 1) {
      if (!this.setBall(at)) continue;
      for (let m = 0; m < men.length; m += 1) {
        if (this.onGround && men[m] >= INFIELDERS) continue;
        const pairs = spotsOf[m];
        const { spots, turn, reach, promise } = answers[m];
        for (let s = 0, to = at * spots; s < spots; s += 1, to += 1) {
          const x = pairs[2 * s];
          const y = pairs[2 * s + 1];
          if (this.isBeyond(at, men[m], x, y)) continue;
          this.standAt(men[m], x, y);
          turn[to] = this.turn;
          reach[to] = this.reach;
          promise[to] = this.promise;
        }
      }
    }
    return answers;
  }
}

function flightsOf(balls: BallColumns) {
  return {
    sin: Float64Array.from(balls.bearingDeg, (bearing) => Math.sin(radians(bearing))),
    cos: Float64Array.from(balls.bearingDeg, (bearing) => Math.cos(radians(bearing))),
    distanceFt: balls.distanceFt,
    hangS: balls.hangS,
  };
}
