/**
 * Runs between a ball being a hit and being an out. Flat: 0.75 a play, common practice without a source. Run tables by hit
 * type and base-out state take its place where a book carries them (method.md 8).
 */
export const FLAT_STAKE_RUNS = 0.75;
