import { FlightChances } from '../chances/air/flight-chances.ts';
import { BallGame } from '../chances/ball-game.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import { GrounderChances } from '../chances/grounder-chances.ts';
import { PlacementShares } from './placement-shares.ts';
import type { AirBall, GroundBall, PlayCase } from './play-case.ts';
import type { SetModels } from './set-models.ts';
import { type DefenderView, viewDefenders } from './view-defenders.ts';

/** One man of a play, with other starts tried or none. */
export interface TriedMan extends DefenderView {
  /** 0 for who does not move, or has no chance wherever he or anybody at his position stood. */
  readonly placementOuts: number;
  readonly placementRuns: number;
}

/** What the marks say of one play with some starts. */
export interface Trial {
  /** The same whatever the starts. */
  readonly opening: number;
  readonly set: number;
  /** In chance order. */
  readonly men: readonly TriedMan[];
}

/** Chances that also tell how far a man covers. */
interface CoveringChances extends DefenderChances {
  cover(k: number, startXFt: number, startYFt: number, spotXFt: number, spotYFt: number): number;
}

/** Its own play is number 0, those that lent their starts are numbers 1 and up. */
const OWN = 0;

/**
 * Tries one play with any starts, by the code and the models that scored it: with its own starts it gives the book's marks
 * and placement entries to the last bits (method.md 4 to 7). Needs neither book nor Node. Holds scratch space.
 */
export class WhatIf {
  readonly playCase: PlayCase;
  private readonly chances: CoveringChances;
  private readonly game: BallGame;
  private readonly placement: PlacementShares;
  private readonly lenders: readonly number[];
  /** Seconds after contact at which the ball is this many feet along its line; in the air it keeps its mean speed. */
  readonly secondsTo: (distanceFt: number) => number;

  /** Throws RangeError when the models are for another class of balls. */
  constructor(models: SetModels, playCase: PlayCase) {
    const { ball, starts, drawn, movable } = playCase;
    const men = starts.length / 2;
    const placements = { men, starts: new Float64Array(starts.length * (drawn.length + 1)).fill(Number.NaN) };
    drawn.forEach((row, d) => {
      movable.forEach((k, b) => {
        placements.starts.set(row.slice(2 * b, 2 * b + 2), ((d + 1) * men + k) * 2);
      });
    });
    this.playCase = playCase;
    this.lenders = drawn.map((_, d) => d + 1);
    if (models.ballClass === 'ground' && ball.ballClass === 'ground') {
      const grounder = new GrounderChances(groundColumns(ball), models.infield);
      grounder.setBall(OWN, OWN);
      this.chances = grounder;
      this.secondsTo = (distanceFt) => grounder.secondsTo(distanceFt);
    } else if (models.ballClass === 'air' && ball.ballClass === 'air') {
      this.chances = new FlightChances(airColumns(ball), flightColumns(ball), models);
      this.chances.setBall(OWN, OWN);
      this.secondsTo = (distanceFt) => (ball.hangS * distanceFt) / ball.distanceFt;
    } else {
      throw new RangeError(`models of class ${ball.ballClass} expected, received those of class ${models.ballClass}`);
    }
    const draws = { draws: drawn.length, source: Int32Array.from(this.lenders) };
    this.game = new BallGame(placements, this.chances, draws, movable);
    this.placement = new PlacementShares(this.game, drawn.length);
  }

  /** The play with these starts: x and y of each man by position, as many as the case has. Throws RangeError otherwise. */
  try(starts: ArrayLike<number>): Trial {
    const { game, placement, playCase, chances } = this;
    if (starts.length !== playCase.starts.length)
      throw new RangeError(`${playCase.starts.length} numbers expected as starts, received ${starts.length}`);
    game.plays.starts.set(starts, OWN);
    placement.settle(OWN, playCase.shifts);
    const outs = new Float64Array(game.plays.men);
    for (let b = 0; b < game.playerCount; b += 1) outs[game.players[b]] = placement.outs[b];
    const views = viewDefenders(game, chances, this.lenders, Math.exp(playCase.shifts.set), OWN);
    return {
      opening: placement.opening,
      set: placement.set,
      men: views.map((view) => ({
        ...view,
        placementOuts: outs[view.position - 1],
        placementRuns: outs[view.position - 1] * playCase.stakeRuns,
      })),
    };
  }

  /** Chance that the man of a position gets, from a start, to a ball like this one that comes to a spot. */
  cover(position: number, startXFt: number, startYFt: number, spotXFt: number, spotYFt: number): number {
    return this.chances.cover(position - 1, startXFt, startYFt, spotXFt, spotYFt);
  }
}

function groundColumns(ball: GroundBall) {
  return {
    flags: new Uint16Array(1),
    sinBearing: Float64Array.of(ball.sinBearing),
    cosBearing: Float64Array.of(ball.cosBearing),
    exitSpeedMph: Float64Array.of(ball.exitSpeedMph),
    launchAngleDeg: Float64Array.of(ball.launchAngleDeg),
    surface: Uint8Array.of(ball.surface),
    batterToFirstS: Float64Array.of(ball.batterToFirstS),
    state: Uint8Array.of(ball.state),
  };
}

function airColumns(ball: AirBall) {
  return {
    kind: Uint8Array.of(ball.kind),
    bearingDeg: Float64Array.of(ball.bearingDeg),
    exitSpeedMph: Float64Array.of(ball.exitSpeedMph ?? Number.NaN),
  };
}

function flightColumns(ball: AirBall) {
  return {
    sin: Float64Array.of(ball.sin),
    cos: Float64Array.of(ball.cos),
    distanceFt: Float64Array.of(ball.distanceFt),
    hangS: Float64Array.of(ball.hangS),
  };
}
