import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import type { TestProject } from 'vitest/node';
import { demo } from '../src/commands/demo.ts';
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

const now = () => new Date();
/** As small as shows everything: two seasons for "from season to season", six clubs for even spots of others. */
const LEAGUE = { seasons: 2, teams: 6, seed: 1, ballsPerSeason: 6000 } as const;

/** Builds the pages and a demo book once, and serves them to all files of this folder. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = temporaryFolder();
  const webFolder = join(folder.path, 'web');
  const book = join(folder.path, 'Tideline League');
  const configFile = fileURLToPath(new URL('../web/vite.config.ts', import.meta.url));
  await build({ configFile, logLevel: 'warn', build: { outDir: webFolder } });
  await demo({ book, ...LEAGUE }, { progress: SILENT, now });
  const listening = await listen({ book, webFolder, port: 0, host: '127.0.0.1' }, { now });
  project.provide('address', listening.address.replace(/\/$/, ''));
  project.provide('book', book);
  project.provide('webFolder', webFolder);
  return async () => {
    await listening.close();
    rmSync(folder.path, { recursive: true, force: true });
  };
}
