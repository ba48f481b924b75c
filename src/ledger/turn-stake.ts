/**
 * Runs of a second out when every turn counts alike, by Lindsey's run table of 1963 (Operations Research 11(4)): what the inning
 * is worth when the runner from first is forced at second and the batter is safe, less what it is worth when he is out, too.
 * By base-out state that is 0.22 to 1.53; this is the mean over the plays on which it was possible. How often each state comes
 * up is the demo league's, since no source is at hand.
 */
export const FLAT_TURN_STAKE_RUNS = 0.47;
