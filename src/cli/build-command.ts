import { type Command, Option } from 'commander';
import { RUN_MODES, type RunMode } from '../ledger/runs/stakes.ts';
import { buildText } from './build-text.ts';
import type { Console } from './console.ts';
import { MAX_SEED, threadsOf, wholeNumber } from './option-values.ts';

interface BuildWords {
  readonly book: string;
  readonly runs: RunMode;
  readonly window: 'rolling' | 'strict';
  readonly draws: number;
  readonly replicates: number;
  readonly seed: number;
  readonly threads?: number;
  readonly warm?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerBuild(program: Command, console: Console): void {
  program
    .command('build')
    .description('Fits the models, sets the marks and books the entries. The results before stay until all is done.')
    .requiredOption('--book <dir>', 'the book to build')
    .addOption(
      new Option(
        '--runs <mode>',
        'what an out is worth: flat is 0.75 run; neutral goes by the hit it would be; state by that, runners and outs',
      )
        .choices([...RUN_MODES])
        .default('flat'),
    )
    .addOption(
      new Option(
        '--window <kind>',
        'which plays even spots are drawn from: rolling seasons, or strict, earlier dates only',
      )
        .choices(['rolling', 'strict'])
        .default('rolling'),
    )
    .option('--draws <n>', 'how many placements of others a ball is tried with', wholeNumber(24, 1000), 24)
    .option(
      '--replicates <n>',
      'replicates of the bootstrap by game from which standard errors come; 0 for no standard errors, else 100 or more',
      wholeNumber(0, 10_000),
      1000,
    )
    .option('--seed <s>', 'the same seed gives the same book', wholeNumber(0, MAX_SEED), 1)
    .option(
      '--threads <n>',
      'threads to fit and rate on; as many as the machine runs, one for a small book',
      wholeNumber(1, 256),
    )
    .option('--warm', "begin each fit where the last build's ended: sooner done, the same but for the last digits")
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText('after', '\nExample:\n  leatherbook build --book my-book --draws 48')
    .action(async (words: BuildWords) => {
      const { build } = await import('../commands/build.ts');
      const { book, runs, window, draws, replicates, seed, warm = false } = words;
      const progress = console.progress(words.quiet === true);
      const options = { book, runs, window, draws, replicates, seed, warm, ...threadsOf(words) };
      const report = await build(options, { progress, now: console.now });
      console.out(words.json ? `${JSON.stringify(report)}\n` : buildText(report));
    });
}
