import { IN_MEMORY, openDuckDbStore } from './duckdb-store.ts';
import type { Store } from './store.ts';

/** An empty database in memory, for whoever must not hold a book's file for long. */
export function openMemoryStore(): Promise<Store> {
  return openDuckDbStore(IN_MEMORY, { memoryLimitMb: 2048 });
}
