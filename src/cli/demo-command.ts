import type { Command } from 'commander';
import type { Console } from './console.ts';
import { demoText } from './demo-text.ts';
import { explanationText } from './explanation-text.ts';
import { MAX_SEED, wholeNumber } from './option-values.ts';
import { serveUntilStopped } from './serve-until-stopped.ts';

interface DemoWords {
  readonly book: string;
  readonly seasons: number;
  readonly teams: number;
  readonly seed: number;
  readonly open: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerDemo(program: Command, console: Console): void {
  program
    .command('demo')
    .description('Does the whole job on an invented league: simulate, intake, build, and print the main tables.')
    .option(
      '--book <dir>',
      'the book to make; an earlier demo book there is replaced, anything else is left alone',
      'demo-book',
    )
    .option('--seasons <n>', 'how many seasons to play', wholeNumber(1, 20), 3)
    .option('--teams <n>', 'how many clubs the league has', wholeNumber(2, 30), 12)
    .option('--seed <s>', 'the same seed gives the same league and the same book', wholeNumber(0, MAX_SEED), 1)
    .option('--no-open', 'do not open the workbench afterwards; without a terminal it is never opened')
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText('after', '\nExample:\n  leatherbook demo --book demo-book --seasons 1 --teams 6')
    .action(async (words: DemoWords) => {
      const { demo } = await import('../commands/demo.ts');
      const { book, seasons, teams, seed } = words;
      const progress = console.progress(words.quiet === true);
      const report = await demo({ book, seasons, teams, seed }, { progress, now: console.now });
      if (words.json) {
        console.out(`${JSON.stringify(report)}\n`);
        return;
      }
      console.out(demoText(report, explanationText(report.explanation)));
      if (words.open && console.isTerminal) {
        await serveUntilStopped({ book, host: '127.0.0.1', open: true, quiet: words.quiet }, console);
      } else if (!words.quiet) {
        console.err(`To open the workbench: npx leatherbook serve --book ${book}\n`);
      }
    });
}
