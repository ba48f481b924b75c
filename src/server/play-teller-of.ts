import { type PlayTeller, readPlayTeller } from '../commands/explain/play-teller.ts';
import type { BookCopy } from './book-copy.ts';
import type { BookSource } from './book-source.ts';

/** The book's plays and models in memory, read once for each version of the book. */
export function playTellerOf(source: BookSource, copy: BookCopy): Promise<PlayTeller> {
  return copy.cached('play teller', () => source.withBook(readPlayTeller));
}
