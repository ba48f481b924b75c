import { readSettings } from '../../src/book/book-info.ts';
import type { Book } from '../../src/book/open-book.ts';
import { type BuildResults, readModelFile } from '../../src/book/replace-results.ts';

/** Results in which everything says the same version, so that a mixture of two builds can be seen. */
export function versionedResults(version: number, entryCount: number): BuildResults {
  const outs = new Float64Array(entryCount);
  // The first value is the version, the others cannot be packed away to nothing.
  for (let row = 0; row < entryCount; row++) outs[row] = row === 0 ? version : version + Math.sin(row) / 4;
  return {
    tables: {
      entries: { rowCount: entryCount, columns: [{ name: 'outs', type: 'double', values: outs }] },
      teams: { rowCount: 1, columns: [{ name: 'plays', type: 'integer', values: Int32Array.of(version) }] },
    },
    models: { 'reach.bin': new Uint8Array(200_000).fill(version), 'finish.bin': new Uint8Array(10).fill(version) },
    settings: { version: String(version) },
  };
}

/** Every version that can be read off a book: one, if the results are whole. Also how many entries there are. */
export async function versionsIn(book: Book): Promise<{ versions: number[]; entryCount: number }> {
  const [entries] = await book.store.rows(
    'SELECT count(*) AS n, min(round(outs)) AS low, max(round(outs)) AS high FROM entries',
  );
  const [teams] = await book.store.rows('SELECT plays FROM teams');
  const files = [await readModelFile(book, 'reach.bin'), await readModelFile(book, 'finish.bin')];
  const found = new Set<number>([
    entries!.low as number,
    entries!.high as number,
    teams!.plays as number,
    Number((await readSettings(book.store)).version),
  ]);
  for (const bytes of files) for (const byte of bytes) found.add(byte);
  return { versions: [...found], entryCount: entries!.n as number };
}
