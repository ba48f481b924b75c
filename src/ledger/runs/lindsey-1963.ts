/**
 * Expected runs to the end of the half inning in over 6,000 half innings of 1959 and 1960: G. R. Lindsey, "An Investigation
 * of Strategies in Baseball", Operations Research 11(4), 1963. Two decimals were read in Albert, Journal of Sports Analytics 1
 * (2015), table 1; the third decimal is from memory. By state, outs * 8 + bases.
 */
export const LINDSEY_1963_RUNS: readonly number[] = [
  // Bases empty, 1--, -2-, 12-, --3, 1-3, -23, 123: the order of the bits, not the order in print.
  0.461, 0.813, 1.194, 1.471, 1.39, 1.94, 1.96, 2.22,
  // One out.
  0.243, 0.498, 0.671, 0.939, 0.98, 1.115, 1.56, 1.642,
  // Two outs.
  0.102, 0.219, 0.297, 0.403, 0.355, 0.532, 0.687, 0.823,
];
