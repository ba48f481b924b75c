#!/usr/bin/env node
import { progressBar } from './progress-bar.ts';
import { runCommandLine } from './run-command-line.ts';

// Whoever reads our output may stop early (`| head`): that ends the work, and is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await runCommandLine(
  process.argv.slice(2),
  {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    progress: (quiet) => progressBar(process.stderr, quiet),
    now: () => new Date(),
    isTerminal: process.stdout.isTTY === true,
    stopped: () =>
      new Promise((resolve) => {
        for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
      }),
  },
  Boolean(process.env.LEATHERBOOK_DEBUG),
);
