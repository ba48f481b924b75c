/**
 * A 32-bit hash of a text (FNV-1a over UTF-16 units, finished with an avalanche step), so that a seed can be tied to what
 * a thing is (a play's id) and not to where it stands in a table. Not for security.
 */
export function hashText(text: string, seed = 0): number {
  let hash = 0x811c9dc5 ^ seed;
  for (let i = 0; i < text.length; i += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return mixBits(hash);
}

/** Spreads every bit of an integer over all 32, so that near seeds give unrelated streams (murmur3's finishing step). */
export function mixBits(value: number): number {
  let bits = value | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return bits ^ (bits >>> 16);
}
