import type { Book } from '../book/open-book.ts';
import { readModelFile } from '../book/replace-results.ts';
import { type SetModels, type SetModelsFile, toSetModelsFile } from '../ledger/set-models.ts';
import { unpackBuild } from './build-file.ts';

/** By class of balls, the models that set marks rest on; null where the build had no such balls. */
export type SetModelsByClass = Readonly<Record<SetModels['ballClass'], SetModelsFile | null>>;

/** @throws ExpectedFailure of kind `book` when the book has not been built */
export async function readSetModels(book: Book): Promise<SetModelsByClass> {
  const { models } = await unpackBuild((name) => readModelFile(book, name));
  const { grounders, air } = models;
  return {
    ground: grounders && toSetModelsFile({ ballClass: 'ground', infield: grounders }),
    air: air && toSetModelsFile({ ballClass: 'air', reach: air.reach, kept: air.kept }),
  };
}
