import type { Command } from 'commander';
import type { Console } from './console.ts';
import { wholeNumber } from './option-values.ts';
import { serveUntilStopped } from './serve-until-stopped.ts';

interface ServeWords {
  readonly book: string;
  readonly port?: number;
  readonly host: string;
  readonly open: boolean;
  readonly quiet?: boolean;
}

export function registerServe(program: Command, console: Console): void {
  program
    .command('serve')
    .description('Opens the workbench: the book as pages in a browser, on this machine only unless told.')
    .requiredOption('--book <dir>', 'the book to show')
    .option('--port <n>', 'the port to listen on; 7420 or, if that is taken, any free one', wholeNumber(0, 65_535))
    .option(
      '--host <address>',
      'the address to listen on; another than this lets others on the network in',
      '127.0.0.1',
    )
    .option('--no-open', 'print the address and open no browser')
    .option('--quiet', 'print the address and nothing else')
    .addHelpText('after', '\nExample:\n  leatherbook serve --book my-book')
    .action(async (words: ServeWords) => await serveUntilStopped(words, console));
}
