import { mkdirSync, rmSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { openBook } from '../book/open-book.ts';
import { programVersion } from '../book/program-version.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { findBrowser, printPage } from './report/print-page.ts';
import { readReport } from './report/read-report.ts';
import { reportPage } from './report/report-page.ts';
import { writeChunks, writeOut } from './table/write-out.ts';

export interface ReportOptions {
  readonly book: string;
  /** Folder for the report; made when it is not there. */
  readonly out: string;
  /** The last one of the book unless given. */
  readonly season?: number | undefined;
  /** Fewest chances of a defender to be in it. */
  readonly minChances: number;
  /** What it is called; the name of the book's folder unless given. */
  readonly title?: string | undefined;
}

export interface ReportEffects {
  readonly now: () => Date;
  /** A browser that prints; null when there is none. */
  readonly browser: string | null;
}

export interface ReportAnswer {
  readonly season: number;
  readonly html: string;
  /** null without a browser, or when it failed. */
  readonly pdf: string | null;
  /** Why there is no PDF. */
  readonly warning: string | null;
}

/** What the user's machine has. */
export const reportEffects = (now: () => Date): ReportEffects => ({ now, browser: findBrowser() });

/**
 * A season of a book as files for people who have neither the book nor the program: one HTML page, and the same printed.
 * @throws ExpectedFailure `book`: not built, busy; `usage`: no such season, a folder that cannot be written
 */
export async function report(options: ReportOptions, { now, browser }: ReportEffects): Promise<ReportAnswer> {
  const book = await openBook(options.book, { access: 'read', command: 'report', now });
  const data = await readReport(book, options.season).finally(() => book.close());
  const title = options.title ?? basename(resolve(options.book));
  const { minChances } = options;
  const page = reportPage(data, { title, minChances, programVersion: programVersion(), now: now() });
  makeFolder(options.out);
  const html = join(options.out, 'report.html');
  const pdf = join(options.out, 'report.pdf');
  await writeOut(html, async (draft) => writeChunks(draft, [page]));
  // One of an earlier report would say something else than the page beside it.
  rmSync(pdf, { force: true });
  const answer = { season: data.season, html };
  if (browser === null) {
    const warning = 'No PDF: no Chromium on the PATH to print with. The HTML page is whole; any browser prints it.';
    return { ...answer, pdf: null, warning };
  }
  if (await printPage(browser, html, pdf)) return { ...answer, pdf, warning: null };
  const warning = `No PDF: ${browser} could not print the page. The HTML page is whole; any browser prints it.`;
  return { ...answer, pdf: null, warning };
}

function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (thrown) {
    throw new ExpectedFailure(
      'usage',
      `The folder ${path} cannot be made: ${(thrown as Error).message}.`,
      'Name another folder with --out.',
      { file: path },
      { cause: thrown },
    );
  }
}
