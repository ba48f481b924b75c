/**
 * Exact Shapley value (Shapley 1953). `values` holds v of every coalition, the coalition being the bits of the index
 * (length 2^players, v(empty) need not be 0); `out[i]` is the mean of v(A with i) - v(A) over the orders in which the
 * players may come, and the outputs add up to v(all) - v(empty). Up to some 20 players.
 */
export function shapleyInto(values: Float64Array, players: number, out: Float64Array): void {
  const weights = coalitionWeights(players);
  for (let i = 0; i < players; i += 1) {
    const bit = 1 << i;
    let sum = 0;
    for (let coalition = 0; coalition < 1 << players; coalition += 1) {
      if (coalition & bit) continue;
      sum += weights[bitCount(coalition)] * (values[coalition | bit] - values[coalition]);
    }
    out[i] = sum;
  }
}

const weightsByPlayers: Float64Array[] = [];

/** |A|! (n - 1 - |A|)! / n! by size of A. */
function coalitionWeights(players: number): Float64Array {
  let weights = weightsByPlayers[players];
  if (weights === undefined) {
    weights = new Float64Array(players);
    let weight = 1 / players;
    for (let size = 0; size < players; size += 1) {
      weights[size] = weight;
      weight *= (size + 1) / (players - 1 - size);
    }
    weightsByPlayers[players] = weights;
  }
  return weights;
}

/** How many bits are set. */
export function bitCount(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
