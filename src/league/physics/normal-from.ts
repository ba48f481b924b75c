/** A standard normal draw from a uniform generator (Box & Muller 1958), two uniforms a draw. */
export function normalFrom(random: () => number): number {
  const u = 1 - random();
  return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random());
}
