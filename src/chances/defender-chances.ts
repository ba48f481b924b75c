/** How the ball came to a man at the last spot, for people who want to see it; NaN for what his class of balls has not. */
export interface SpotFacts {
  /** On the ground: signed distance to the ball's line, feet, + on his first-base side. */
  readonly gapFt: number;
  /** In the air: the run he needed, feet toward home and toward the first-base side. */
  readonly runInFt: number;
  readonly runAcrossFt: number;
  /** Seconds after contact at which the ball was there. */
  readonly arrivalS: number;
}

/** Chances of the defenders at any spot on one ball after another. Holds scratch space: one a thread and loop. */
export interface DefenderChances {
  /** Chooses the ball of play `at`; what that ball lacks is taken from play `lender`. */
  setBall(at: number, lender: number): void;
  /** Puts the man of index k (position - 1) at a spot and fills the fields below. */
  standAt(k: number, xFt: number, yFt: number): void;
  /** Place in the chance order of the last spot: the smaller comes first. */
  readonly turn: number;
  /** Whether men leave such balls to one another by a call (left-to-him.ts). */
  readonly isCalledFor: boolean;
  /** Chance to gather if nobody before him did or would have; 0 when it is out of the question. */
  readonly reach: number;
  /** Chance of an out if he gathers. */
  readonly promise: number;
  /** Facts about the last spot; not for hot loops. */
  describe(): SpotFacts;
}
