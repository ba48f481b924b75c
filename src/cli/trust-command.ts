import { type Command, Option } from 'commander';
import type { Console } from './console.ts';
import { handOut } from './hand-out.ts';
import { MAX_SEED, threadsOf, wholeNumber } from './option-values.ts';
import { TRUST_PARTS, type TrustPart, trustCsv } from './trust-csv.ts';
import { trustText } from './trust-text.ts';

interface TrustWords {
  readonly book: string;
  readonly folds: number;
  readonly seed: number;
  readonly format: 'text' | 'csv' | 'json';
  readonly part: TrustPart;
  readonly out?: string;
  readonly threads?: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerTrust(program: Command, console: Console): void {
  program
    .command('trust')
    .description('Says whether the numbers of a book can be used: its fits, its chances on unseen games, its gaps.')
    .requiredOption('--book <dir>', 'the book, built')
    .option('--folds <n>', 'parts that the games are dealt into; each is judged by the others', wholeNumber(2, 20), 5)
    .option('--seed <s>', 'the same seed deals the games out in the same way', wholeNumber(0, MAX_SEED), 1)
    .option(
      '--threads <n>',
      'threads to fit on; as many as the machine runs, one for a small book',
      wholeNumber(1, 256),
    )
    .addOption(new Option('--format <form>', 'the form of the answer').choices(['text', 'csv', 'json']).default('text'))
    .addOption(new Option('--part <name>', 'what a CSV holds').choices([...TRUST_PARTS]).default('scores'))
    .option('--out <file>', 'write to this file')
    .option('--json', 'short for --format json')
    .option('--quiet', 'show no progress')
    .addHelpText('after', '\nExample:\n  leatherbook trust --book my-book')
    .action(async (words: TrustWords) => {
      const { trust } = await import('../commands/trust.ts');
      const { book, folds, seed } = words;
      const progress = console.progress(words.quiet === true);
      const report = await trust({ book, folds, seed, ...threadsOf(words) }, { progress, now: console.now });
      const format = words.json === true ? 'json' : words.format;
      const answer = {
        json: () => `${JSON.stringify(report)}\n`,
        csv: () => trustCsv(report, words.part),
        text: () => trustText(report),
      }[format]();
      await handOut(answer, words, console);
    });
}
