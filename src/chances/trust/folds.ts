import { hashText } from '../../numeric/hash.ts';
import type { ClassPlays } from '../class-plays.ts';

export interface FoldSettings {
  /** 2 or more. */
  readonly folds: number;
  readonly seed: number;
}

/**
 * Fold of each play, 0 to folds - 1: whole games, in an order drawn from game id and seed, dealt out in turn so that
 * folds hold as many games as can be. Depends on the games only, not on the order of plays. Throws RangeError when there
 * are fewer games than folds.
 */
export function assignFolds(
  { table, row, count }: Pick<ClassPlays, 'table' | 'row' | 'count'>,
  folds: number,
  seed: number,
): Uint8Array {
  const played = [...new Set(Array.from(row, (r) => table.game[r]))];
  if (!(folds >= 2) || played.length < folds) {
    throw new RangeError(`${folds} folds need 2 or more and as many games; there are ${played.length} games`);
  }
  const ids = table.games;
  const order = played
    .map((game) => ({ game, key: hashText(ids[game], seed) >>> 0 }))
    .sort((a, b) => a.key - b.key || (ids[a.game] < ids[b.game] ? -1 : 1));
  const foldOfGame = new Map(order.map(({ game }, rank) => [game, rank % folds]));
  const fold = new Uint8Array(count);
  for (let at = 0; at < count; at += 1) fold[at] = foldOfGame.get(table.game[row[at]])!;
  return fold;
}
