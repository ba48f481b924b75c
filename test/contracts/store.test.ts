import { join } from 'node:path';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import { temporaryFolder } from '../helpers/temporary-book.ts';
import { describeStore } from './store-contract.ts';

describeStore('DuckDB in memory', async () => {
  const store = await openDuckDbStore(IN_MEMORY);
  return { store, remove: () => store.close() };
});

describeStore('DuckDB file', async () => {
  const folder = temporaryFolder();
  const store = await openDuckDbStore(join(folder.path, 'a.duckdb'));
  return {
    store,
    async remove() {
      await store.close();
      folder.remove();
    },
  };
});
