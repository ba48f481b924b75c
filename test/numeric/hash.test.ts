import { describe, expect, it } from 'vitest';
import { hashText, mixBits } from '../../src/numeric/hash.ts';

describe('hashText and mixBits', () => {
  it('finishes as MurmurHash3 does: its 32-bit hash of no bytes is the finishing step of its seed', () => {
    // Test vectors of the public MurmurHash3 x86 32: empty key, seeds 0, 1 and 0xffffffff (from memory).
    expect(mixBits(0) >>> 0).toBe(0);
    expect(mixBits(1) >>> 0).toBe(0x514e28b7);
    expect(mixBits(0xffffffff) >>> 0).toBe(0x81f16f39);
  });

  it('begins as FNV-1a does', () => {
    // 32-bit FNV-1a of '', 'a' and 'foobar' in the authors' test suite (from memory), before the finishing step.
    expect(hashText('')).toBe(mixBits(0x811c9dc5));
    expect(hashText('a')).toBe(mixBits(0xe40c292c));
    expect(hashText('foobar')).toBe(mixBits(0xbf9cf968));
  });

  it('has no collisions among the ids of a season, and depends on the seed', () => {
    const ids = Array.from({ length: 30_000 }, (_, k) => `2031-${String(k % 900).padStart(4, '0')}-${k}`);
    // Among 30,000 values of 32 bits a tenth of a pair is expected to meet; five would be a fault.
    expect(new Set(ids.map((id) => hashText(id, 1))).size).toBeGreaterThan(ids.length - 5);
    expect(ids.filter((id) => hashText(id, 1) === hashText(id, 2)).length).toBeLessThan(5);
  });

  it('flips half the bits, on average, when one bit of the input flips', () => {
    let flipped = 0;
    let tried = 0;
    for (let value = 1; value < 2000; value += 7) {
      for (let bit = 0; bit < 32; bit += 1) {
        let difference = (mixBits(value) ^ mixBits(value ^ (1 << bit))) >>> 0;
        for (; difference !== 0; difference &= difference - 1) flipped += 1;
        tried += 32;
      }
    }
    expect(Math.abs(flipped / tried - 0.5)).toBeLessThan(0.01);
  });
});
