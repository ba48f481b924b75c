import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir, totalmem } from 'node:os';
import { join } from 'node:path';
import { openBook } from '../src/book/open-book.ts';
import { readPlayTable } from '../src/book/read-play-table.ts';
import { replaceResults } from '../src/book/replace-results.ts';
import { writePlayTable } from '../src/book/write-play-table.ts';
import { inventedPlays } from '../test/helpers/invented-plays.ts';

/** Reading and writing a book of 150,000 plays (or as many as the first argument says): `npx tsx bench/book.ts`. */
async function main(): Promise<void> {
  const playCount = Number(process.argv[2] ?? 150_000);
  const dir = join(mkdtempSync(join(tmpdir(), 'leatherbook-bench-')), 'book');
  const say = (what: string, started: number, extra = '') =>
    console.log(`${what.padEnd(46)} ${((performance.now() - started) / 1000).toFixed(2).padStart(6)} s ${extra}`);
  try {
    const plays = inventedPlays(playCount);
    const book = await openBook(dir, { access: 'create', command: 'bench', now: () => new Date() });
    const [engine] = await book.store.rows('SELECT version() AS version');
    const memory = `${Math.round(totalmem() / 2 ** 30)} GB`;
    console.log(
      `${cpus()[0]?.model} x ${cpus().length}, ${memory}, node ${process.version}, DuckDB ${engine?.version}`,
    );
    const starts = plays.fielder.reduce((sum, person) => sum + (person >= 0 ? 1 : 0), 0);
    console.log(`${plays.count} plays, ${starts} starts\n`);

    let started = performance.now();
    await writePlayTable(book, plays);
    say('write plays and starts', started);
    for (let round = 0; round < 3; round++) {
      started = performance.now();
      await readPlayTable(book);
      say('read the play table', started);
    }

    const entryCount = playCount * 6;
    const playOf = (row: number) => plays.playId[Math.floor(row / 6)]!;
    const entries = {
      rowCount: entryCount,
      columns: [
        { name: 'play_id', type: 'text' as const, values: Array.from({ length: entryCount }, (_, row) => playOf(row)) },
        { name: 'season', type: 'integer' as const, values: new Int32Array(entryCount).fill(2030) },
        {
          name: 'fielder_id',
          type: 'text' as const,
          values: Array.from({ length: entryCount }, (_, row) => `person${row % 300}`),
        },
        {
          name: 'position',
          type: 'integer' as const,
          values: Int32Array.from({ length: entryCount }, (_, row) => 1 + (row % 6)),
        },
        { name: 'team', type: 'text' as const, values: new Array<string>(entryCount).fill('team01') },
        { name: 'kind', type: 'text' as const, values: new Array<string>(entryCount).fill('reach') },
        {
          name: 'outs',
          type: 'double' as const,
          values: Float64Array.from({ length: entryCount }, (_, row) => Math.sin(row)),
        },
        {
          name: 'runs',
          type: 'double' as const,
          values: Float64Array.from({ length: entryCount }, (_, row) => Math.cos(row)),
        },
      ],
    };
    for (let round = 0; round < 3; round++) {
      started = performance.now();
      await replaceResults(book, { tables: { entries }, models: { 'models.json': new Uint8Array(1e6) }, settings: {} });
      say(`replace results, ${entryCount} entries`, started);
    }
    started = performance.now();
    const { rowCount } = await book.store.query('SELECT outs, runs FROM entries');
    say('read two columns of the entries', started, `${rowCount} rows`);
    started = performance.now();
    await book.close();
    say('close', started, `${(statSync(join(dir, 'book.duckdb')).size / 1e6).toFixed(1)} MB on disk`);
    console.log(`\nlargest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
  } finally {
    rmSync(join(dir, '..'), { recursive: true, force: true });
  }
}

await main();
