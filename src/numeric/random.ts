import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { hashText, mixBits } from './hash.ts';

/** A seeded stream of random numbers; the same seed gives the same stream on every machine. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  next(): number;
  /** Standard normal (polar method of Marsaglia & Bray 1964). */
  normal(): number;
  /** Uniform integer in [0, n). */
  integer(n: number): number;
  /** Another stream that depends on this one's seed and the label only, not on how much was drawn before. */
  fork(label: string | number): Random;
}

/** Outputs thrown away after seeding, since the generator's first ones still show the seed. */
const WARM_UP = 12;

export function createRandom(seed: number): Random {
  const generator = xoroshiro128plus(mixBits(seed));
  for (let i = 0; i < WARM_UP; i += 1) generator.next();
  const next = () => uniformFloat64(generator);
  let spare = Number.NaN;

  function normal(): number {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const u = 2 * next() - 1;
      const v = 2 * next() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * scale;
        return u * scale;
      }
    }
  }

  return {
    next,
    normal,
    integer: (n) => Math.floor(next() * n),
    fork: (label) => createRandom(hashText(String(label), mixBits(seed ^ 0x5bd1e995))),
  };
}
