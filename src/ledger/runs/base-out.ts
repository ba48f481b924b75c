/**
 * The 24 base-out states, numbered outs * 8 + bases as everywhere in the project (bits ON_FIRST, ON_SECOND, ON_THIRD);
 * number 24 stands for a half inning that is over.
 */
export const BASE_OUT_STATES = 24;
export const INNING_OVER = 24;

/** Number of runners by the bits of occupied bases. */
export const RUNNERS: readonly number[] = [0, 1, 1, 2, 1, 2, 2, 3];

/** Who is on base in a state, such as `1-3`; `---` for nobody. */
export function runnersName(state: number): string {
  return [1, 2, 3].map((base) => (state & (1 << (base - 1)) ? base : '-')).join('');
}

/** A state in words of the scorebook, such as `1 out, 1-3`. */
export function baseOutName(state: number): string {
  const outs = state >> 3;
  return `${outs} out${outs === 1 ? '' : 's'}, ${runnersName(state)}`;
}
