import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { inject } from 'vitest';
import { build } from '../../src/commands/build.ts';
import type { BuildReport } from '../../src/commands/build-report.ts';
import { intake } from '../../src/commands/intake.ts';
import { simulate } from '../../src/commands/simulate.ts';
import { SILENT } from '../../src/progress.ts';
import { makeOnce } from './once-a-run.ts';
import { TEST_NOW } from './temporary-book.ts';

const effects = { progress: SILENT, now: TEST_NOW };

/** A league's files, the book they were read into, and what its build said. */
export interface CommonBook {
  readonly files: string;
  readonly book: string;
  readonly report: BuildReport;
}

/** How the common book was built. */
export const COMMON_SETTINGS = { runs: 'flat', window: 'rolling', draws: 24, seed: 1 } as const;

/**
 * A copy, in `folder`, of a small book: one season of four clubs, built. Fits take ten seconds however small the book, so one is
 * made for all files that have no wish of their own.
 */
export async function commonBook(folder: string): Promise<CommonBook> {
  const common = join(inject('commonFolder'), 'book');
  const report = await makeOnce(common, async () => {
    const [files, book] = [join(common, 'files'), join(common, 'book')];
    await simulate({ out: files, seasons: 1, teams: 4, seed: 8, ballsPerSeason: 3000 }, { progress: SILENT });
    await intake({ book, mapping: join(files, 'mapping.yaml') }, effects);
    return build({ book, ...COMMON_SETTINGS }, effects);
  });
  for (const name of ['files', 'book']) cpSync(join(common, name), join(folder, name), { recursive: true });
  return { files: join(folder, 'files'), book: join(folder, 'book'), report };
}
