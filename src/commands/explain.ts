import { openBook } from '../book/open-book.ts';
import type { Progress } from '../progress.ts';
import type { Explanation } from './explain/explanation.ts';
import { readPlayTeller } from './explain/play-teller.ts';
import { readStoredMarks } from './explain/stored-results.ts';

export type { ExplainedEntry, Explanation } from './explain/explanation.ts';

export interface ExplainOptions {
  readonly book: string;
  readonly playId: string;
}

export interface ExplainEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

/** Tells where every number of one play came from. */
export async function explain(options: ExplainOptions, effects: ExplainEffects): Promise<Explanation> {
  const book = await openBook(options.book, { access: 'read', command: 'explain', now: effects.now });
  try {
    // Before everything is read: a play that is not there should be answered at once.
    await readStoredMarks(book.store, options.book, options.playId);
    const teller = await readPlayTeller(book);
    return (await teller.tell(book.store, options.playId)).explanation;
  } finally {
    await book.close();
  }
}
