import { join } from 'node:path';
import { openBook } from '../book/open-book.ts';
import type { Progress } from '../progress.ts';
import { build } from './build.ts';
import { prepareDemoFolder } from './demo-folder.ts';
import { type DemoTables, readDemoTables } from './demo-tables.ts';
import { type Explanation, explain } from './explain.ts';
import { intake } from './intake.ts';
import { simulate } from './simulate.ts';

export interface DemoOptions {
  readonly book: string;
  readonly seasons: number;
  readonly teams: number;
  readonly seed: number;
  /** Balls in play a season; default 25,000. */
  readonly ballsPerSeason?: number;
}

export interface DemoEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface DemoReport {
  readonly book: string;
  /** What was done, in order, and how long each step took. */
  readonly steps: readonly { readonly name: string; readonly seconds: number }[];
  /** Things to look at before the numbers are used, from the build. */
  readonly warnings: readonly string[];
  readonly tables: DemoTables;
  /** One play on which both placement and reach mattered. */
  readonly explanation: Explanation;
}

/** The whole job on the demo league: simulate, intake, build, and the main tables. Replaces an earlier demo book. */
export async function demo(options: DemoOptions, effects: DemoEffects): Promise<DemoReport> {
  const { book, ...league } = options;
  const steps: { name: string; seconds: number }[] = [];
  const step = async <T>(name: string, work: () => Promise<T>): Promise<T> => {
    const began = effects.now().getTime();
    const result = await work();
    steps.push({ name, seconds: (effects.now().getTime() - began) / 1000 });
    return result;
  };
  const files = join(book, 'files');
  await prepareDemoFolder(book, effects);
  await step('simulate', () => simulate({ out: files, ...league }, effects));
  await step('intake', () => intake({ book, mapping: join(files, 'mapping.yaml') }, effects));
  const settings = { book, runs: 'flat', window: 'rolling', draws: 24, seed: options.seed } as const;
  const { warnings } = await step('build', () => build(settings, effects));
  const tables = await step('tables', async () => {
    const opened = await openBook(book, { access: 'read', command: 'leatherbook demo', now: effects.now });
    try {
      return await readDemoTables(opened.store);
    } finally {
      await opened.close();
    }
  });
  const explanation = await step('explain', () => explain({ book, playId: tables.playToExplain }, effects));
  return { book, steps, warnings, tables, explanation };
}
