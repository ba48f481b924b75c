import type { BookAnswer } from '../../src/server/answers.ts';
import { askServer, ServerFailure } from '../api/ask-server.ts';

type BookState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly book: BookAnswer; readonly names: Readonly<Record<string, string>> }
  | { readonly kind: 'failed'; readonly failure: ServerFailure };

let state = $state.raw<BookState>({ kind: 'loading' });

export const bookState = () => state;

/** The book's data; only below the app's frame, which shows pages when they are there. */
export function currentBook(): BookAnswer {
  if (state.kind !== 'ready') throw new Error('The book has not been read yet.');
  return state.book;
}

/** A person's name, or his id where none is known. */
export function nameOf(personId: string | null | undefined): string {
  if (personId === null || personId === undefined) return '';
  return state.kind === 'ready' ? (state.names[personId] ?? personId) : personId;
}

/** Reads what every page needs. Asked again, it changes nothing unless the book has changed. */
export async function readBook(): Promise<void> {
  try {
    const book = await askServer<BookAnswer>('/api/book');
    if (state.kind === 'ready' && state.book.version === book.version) {
      if (state.book.behind?.message !== book.behind?.message) state = { ...state, book };
      return;
    }
    state = { kind: 'ready', book, names: await askServer('/api/names') };
  } catch (thrown) {
    if (!(thrown instanceof ServerFailure)) throw thrown;
    if (state.kind !== 'ready') state = { kind: 'failed', failure: thrown };
  }
}
