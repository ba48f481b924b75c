import { alongLineFt, gapFt } from '../../diamond/ball-line.ts';
import { BALL_KINDS } from '../../diamond/play-codes.ts';
import { GLOVE_HEIGHT_FT, heightFt, staysBelowFromS } from './flight.ts';

const LINER = BALL_KINDS.indexOf('liner');

/** Feet between a man's middle and the ball that his arm makes up. */
const ARM_FT = 3;
/** How far past the spot where it came down an infielder may still make an out on a liner, as a share of its distance. */
const HOP_SHARE = 0.5;
/** Nobody moves a glove sooner than this after contact, seconds. */
const REFLEX_S = 0.3;
/** A usual run: this speed, ft/s, after one second lost to reading the ball and getting under way. From memory; only an origin. */
const USUAL_SPEED_FT_S = 27;
const LOST_S = 1;

/**
 * Where a defender would have to run on one ball in the air after another (method.md 1). He may meet it where it comes
 * down, or at the point nearest to him of the last part of its way, where it is within a glove's height; his need is the
 * smaller of the two required speeds, and every number is that of the point with the smaller one. For an infielder the way
 * of a liner goes on past the spot where it comes down: he may take it on a hop and still make the out.
 */
export class RunGeometry {
  private sin = 0;
  private cos = 1;
  private hangS = 1;
  private distanceFt = 1;
  private lowFromFt = 0;
  /** Required speed, ft/s: feet beyond arm's length over the time there is. */
  needFtS = 0;
  /** Feet by which the point is farther than a usual run gets him in that time; negative when there is time to spare. */
  shortFt = 0;
  /** Seconds after contact at which the ball is there. */
  timeS = 0;
  /** Height of the ball there, feet; 0 where it comes down. */
  heightFt = 0;
  /** Feet that the ball has gone since it came down; 0 for one that he meets in the air. */
  hopFt = 0;
  /** Parts of his run toward home and toward the first-base side, feet. */
  inFt = 0;
  acrossFt = 0;

  /** The ball's line by sine and cosine of its bearing, where it comes down on it and when. */
  setBall(sin: number, cos: number, distanceFt: number, hangS: number): void {
    this.sin = sin;
    this.cos = cos;
    this.hangS = hangS;
    this.distanceFt = distanceFt;
    const lowFromS = Math.min(Math.max(staysBelowFromS(GLOVE_HEIGHT_FT, hangS), REFLEX_S), hangS);
    this.lowFromFt = (distanceFt * lowFromS) / hangS;
  }

  /** Puts a defender at a spot; `hops` when he may take the ball on a hop. */
  standAt(xFt: number, yFt: number, hops: boolean): void {
    const { sin, cos, distanceFt, hangS } = this;
    const along = alongLineFt(sin, cos, xFt, yFt);
    const end = hops ? distanceFt * (1 + HOP_SHARE) : distanceFt;
    const nearest = along < this.lowFromFt ? this.lowFromFt : along > end ? end : along;
    const nearestS = (hangS * nearest) / distanceFt;
    // On the line's own axes the man stands `along` it and `aside` of it.
    const aside = gapFt(sin, cos, xFt, yFt);
    const runToLanding = Math.sqrt(aside * aside + (distanceFt - along) * (distanceFt - along));
    const runToNearest = Math.sqrt(aside * aside + (nearest - along) * (nearest - along));
    const needAtLanding = Math.max(runToLanding - ARM_FT, 0) / hangS;
    const needAtNearest = Math.max(runToNearest - ARM_FT, 0) / nearestS;
    const late = needAtLanding <= needAtNearest;
    const at = late ? distanceFt : nearest;
    const run = late ? runToLanding : runToNearest;
    this.needFtS = late ? needAtLanding : needAtNearest;
    this.timeS = late ? hangS : nearestS;
    this.heightFt = late ? 0 : Math.max(heightFt(nearestS, hangS), 0);
    this.hopFt = Math.max(at - distanceFt, 0);
    this.shortFt = run - USUAL_SPEED_FT_S * Math.max(this.timeS - LOST_S, 0);
    const fromHome = Math.sqrt(xFt * xFt + yFt * yFt) || 1;
    const dx = at * sin - xFt;
    const dy = at * cos - yFt;
    this.inFt = -(dx * xFt + dy * yFt) / fromHome;
    this.acrossFt = (dx * yFt - dy * xFt) / fromHome;
  }
}

/** Whether a defender of index `k` (position - 1) may make an out on a ball of a kind after it came down. */
export function takesHops(k: number, kind: number): boolean {
  return k < 6 && kind === LINER;
}

/** Direction of a run in degrees: 0 straight in, 180 straight back, positive toward the first-base side. */
export function runDirectionDeg(inFt: number, acrossFt: number): number {
  return (Math.atan2(acrossFt, inFt) * 180) / Math.PI;
}
