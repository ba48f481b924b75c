import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as buildPages } from 'vite';
import type { TestProject } from 'vitest/node';
import { build } from '../src/commands/build.ts';
import { intake } from '../src/commands/intake.ts';
import { simulate } from '../src/commands/simulate.ts';
import { SILENT } from '../src/progress.ts';
import { listen } from '../src/server/listen.ts';
import { temporaryFolder } from '../test/helpers/temporary-book.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the workbench of the demo book listens, without a slash at the end. */
    readonly address: string;
    /** Folder of that book. Tests must not write to it; copy it instead. */
    readonly book: string;
    /** Folder of the built pages. */
    readonly webFolder: string;
  }
}

const effects = { progress: SILENT, now: () => new Date() };
/** As small as shows everything: two seasons for "from season to season", clubs enough for even spots of others. */
const LEAGUE = { seasons: 2, teams: 4, seed: 1, ballsPerSeason: 3000 } as const;
const SETTINGS = { runs: 'flat', window: 'rolling', draws: 24, replicates: 100, seed: 1 } as const;

/**
 * Builds the pages and a demo book once, and serves them to all files of this folder. Whoever works on the pages saves the
 * time for the book by naming one made before in LEATHERBOOK_PAGES_BOOK.
 */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = temporaryFolder();
  const webFolder = join(folder.path, 'web');
  const made = process.env.LEATHERBOOK_PAGES_BOOK;
  const book = made ?? join(folder.path, 'Tideline League');
  const configFile = fileURLToPath(new URL('../web/vite.config.ts', import.meta.url));
  await Promise.all([
    buildPages({ configFile, logLevel: 'warn', build: { outDir: webFolder } }),
    made ?? makeBook(book, join(folder.path, 'files')),
  ]);
  const listening = await listen({ book, webFolder, port: 0, host: '127.0.0.1' }, effects);
  project.provide('address', listening.address.replace(/\/$/, ''));
  project.provide('book', book);
  project.provide('webFolder', webFolder);
  return async () => {
    await listening.close();
    rmSync(folder.path, { recursive: true, force: true });
  };
}

async function makeBook(book: string, files: string): Promise<void> {
  await simulate({ out: files, ...LEAGUE }, effects);
  await intake({ book, mapping: join(files, 'mapping.yaml') }, effects);
  await build({ book, ...SETTINGS }, effects);
}
