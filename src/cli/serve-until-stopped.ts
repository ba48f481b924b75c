import type { Console } from './console.ts';

export interface ServeOptions {
  readonly book: string;
  readonly port?: number | undefined;
  readonly host: string;
  /** Whether to open a browser too. */
  readonly open: boolean;
  readonly quiet?: boolean | undefined;
}

/** Serves the workbench until Ctrl-C or a kill. The address goes to standard output, on a line of its own. */
export async function serveUntilStopped(options: ServeOptions, console: Console): Promise<void> {
  const { listen } = await import('../server/listen.ts');
  const { isLoopback } = await import('../server/host-policy.ts');
  const listening = await listen(options, { now: console.now });
  console.out(`${listening.address}\n`);
  if (!options.quiet) {
    if (!isLoopback(options.host)) {
      console.err(
        'Everybody who reaches this machine over the network can read the book there: it asks for no password.\n',
      );
    }
    console.err('The workbench is open at this address. Ctrl-C ends it.\n');
  }
  if (options.open) {
    const { openBrowser } = await import('../server/open-browser.ts');
    openBrowser(listening.address);
  }
  await console.stopped();
  await listening.close();
}
