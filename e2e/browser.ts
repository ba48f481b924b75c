import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { demo } from './demo.ts';

/** Where Debian puts it; another one can be named. */
const CHROMIUM = process.env.LEATHERBOOK_CHROMIUM ?? '/usr/bin/chromium';

/** A page under watch: whatever it asks for outside this server, and whatever goes wrong in it, is kept. */
export interface WatchedPage {
  readonly page: Page;
  /** Addresses of requests that went anywhere but to the workbench. */
  readonly outside: readonly string[];
  /** Errors of scripts and complaints of the browser, such as a breach of the security policy. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

export interface PageOptions extends BrowserContextOptions {
  /** Another server than that of the demo book. */
  readonly address?: string;
}

/** Starts a browser before the tests of a file and stops it after them. */
export function useBrowser(): { open(path: string, options?: PageOptions): Promise<WatchedPage> } {
  let browser: Browser;
  beforeAll(async () => {
    const sandbox = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    browser = await chromium.launch({ executablePath: CHROMIUM, args: [...sandbox, '--disable-dev-shm-usage'] });
  });
  afterAll(async () => {
    await browser?.close();
  });
  return {
    async open(path, { address = demo.address, ...options } = {}) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, ...options });
      const page = await context.newPage();
      const outside: string[] = [];
      const complaints: string[] = [];
      page.on('request', (request) => {
        const url = request.url();
        if (!url.startsWith(`${address}/`) && !url.startsWith('blob:') && !url.startsWith('data:')) outside.push(url);
      });
      page.on('pageerror', (error) => complaints.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      await page.goto(`${address}${path}`);
      return { page, outside, complaints, close: () => context.close() };
    },
  };
}
