import { IN_MEMORY, openDuckDbStore } from './duckdb-store.ts';
import type { Store } from './store.ts';

/**
 * An empty database in memory, for whoever must not hold a book's file for long.
 * @param book the book whose tables are copied into it, for messages
 */
export function openMemoryStore(book: string): Promise<Store> {
  return openDuckDbStore(IN_MEMORY, { memoryLimitMb: 2048, about: book });
}
