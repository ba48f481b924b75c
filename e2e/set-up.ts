import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as buildPages } from 'vite';
import type { TestProject } from 'vitest/node';
import { build } from '../src/commands/build.ts';
import { intake } from '../src/commands/intake.ts';
import { simulate } from '../src/commands/simulate.ts';
import { SILENT } from '../src/progress.ts';
import { type Listening, listen } from '../src/server/listen.ts';
import { makeOnce } from '../test/helpers/once-a-run.ts';
import { temporaryFolder } from '../test/helpers/temporary-book.ts';
import type { Demo } from './demo.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder in which a `Demo` is being made. */
    readonly demoFolder: string;
  }
}

const effects = { progress: SILENT, now: () => new Date() };
/** As small as shows everything: two seasons for "from season to season", clubs enough for even spots of others. */
const LEAGUE = { seasons: 2, teams: 4, seed: 1, ballsPerSeason: 3000 } as const;
const SETTINGS = { runs: 'flat', window: 'rolling', draws: 24, replicates: 100, seed: 1 } as const;

/**
 * Builds the pages and a demo book once, and serves them to all files of this folder. Nobody waits for that here: other tests
 * need neither. Whoever works on the pages saves the time for the book by naming one made before in LEATHERBOOK_PAGES_BOOK.
 */
export function setup(project: TestProject): () => Promise<void> {
  const folder = temporaryFolder();
  const demoFolder = join(folder.path, 'demo');
  let listening: Listening | undefined;
  const making = makeOnce<Demo>(demoFolder, async () => {
    const webFolder = join(demoFolder, 'web');
    const made = process.env.LEATHERBOOK_PAGES_BOOK;
    const book = made ?? join(demoFolder, 'Tideline League');
    const configFile = fileURLToPath(new URL('../web/vite.config.ts', import.meta.url));
    await Promise.all([
      buildPages({ configFile, logLevel: 'warn', build: { outDir: webFolder } }),
      made ?? makeBook(book, join(demoFolder, 'files')),
    ]);
    listening = await listen({ book, webFolder, port: 0, host: '127.0.0.1' }, effects);
    return { address: listening.address.replace(/\/$/, ''), book, webFolder };
  });
  // A failure is told to the files that wait for it.
  const ended = making.catch(() => {});
  project.provide('demoFolder', demoFolder);
  return async () => {
    await ended;
    await listening?.close();
    rmSync(folder.path, { recursive: true, force: true });
  };
}

async function makeBook(book: string, files: string): Promise<void> {
  await simulate({ out: files, ...LEAGUE }, effects);
  await intake({ book, mapping: join(files, 'mapping.yaml') }, effects);
  await build({ book, ...SETTINGS }, effects);
}
