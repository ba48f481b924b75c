import { spawn } from 'node:child_process';
import { accessSync, constants, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Browsers that print a page without a window, by the names of their programs. */
const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const PATIENCE_MS = 120_000;

/** A browser on the PATH, or the one that LEATHERBOOK_CHROMIUM names; null when there is none. */
export function findBrowser(environment: NodeJS.ProcessEnv = process.env): string | null {
  const folders = (environment.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const named = environment.LEATHERBOOK_CHROMIUM;
  const candidates = [...(named ? [named] : []), ...folders.flatMap((dir) => BROWSERS.map((name) => join(dir, name)))];
  return candidates.find(isProgram) ?? null;
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Prints an HTML file as a PDF; false when the browser could not. The page runs no scripts and fetches nothing. */
export async function printPage(browser: string, htmlFile: string, pdfFile: string): Promise<boolean> {
  const profile = mkdtempSync(join(tmpdir(), 'leatherbook-print-'));
  const words = [
    '--headless',
    '--disable-gpu',
    // Its own walls want rights that root in a container does not have; the page is ours and has no script.
    ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    `--user-data-dir=${profile}`,
    '--no-pdf-header-footer',
    `--print-to-pdf=${resolve(pdfFile)}`,
    pathToFileURL(resolve(htmlFile)).href,
  ];
  try {
    const child = spawn(browser, words, { stdio: 'ignore', timeout: PATIENCE_MS });
    const code = await new Promise<number | null>((done) => {
      child.on('error', () => done(null));
      child.on('close', done);
    });
    return code === 0 && existsSync(pdfFile);
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 3 });
  }
}
