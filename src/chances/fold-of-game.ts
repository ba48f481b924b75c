import { hashText } from '../numeric/hash.ts';

/** Fold of a game, 0 to folds - 1, by its own id alone: it stays in its fold whatever else comes into the book. */
export function foldOfGame(id: string, folds: number, seed = 0): number {
  return (hashText(id, seed) >>> 0) % folds;
}
