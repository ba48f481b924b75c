/** Inverse logit, safe for large arguments of either sign. */
export function expit(logit: number): number {
  if (logit >= 0) return 1 / (1 + Math.exp(-logit));
  const e = Math.exp(logit);
  return e / (1 + e);
}

export function logit(probability: number): number {
  return Math.log(probability / (1 - probability));
}

/**
 * A probability moved by a shift on the logit scale, without leaving the probability scale: 0 stays 0, 1 stays 1.
 * `odds` is exp(shift).
 */
export function shiftByOdds(probability: number, odds: number): number {
  const scaled = probability * odds;
  return scaled / (1 - probability + scaled);
}
