import { type Command, Option } from 'commander';
import { compareCsv } from './compare-csv.ts';
import { compareText } from './compare-text.ts';
import type { Console } from './console.ts';
import { handOut } from './hand-out.ts';
import { wholeNumber } from './option-values.ts';

interface CompareWords {
  readonly book: string;
  readonly position?: number;
  readonly season?: number;
  readonly format: 'text' | 'csv' | 'json';
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerCompare(program: Command, console: Console): void {
  program
    .command('compare')
    .description(
      'Sets two or more defenders side by side, with intervals and the chance that the first is above each other.',
    )
    .argument('<who...>', 'defenders, by fielder_id or by a part of the name that only one has')
    .requiredOption('--book <dir>', 'the book, built')
    .option('--position <n>', "only at this position, by the scorekeeper's number", wholeNumber(1, 9))
    .option('--season <y>', 'only in this season', wholeNumber(1, 9999))
    .addOption(new Option('--format <form>', 'the form of the answer').choices(['text', 'csv', 'json']).default('text'))
    .option('--out <file>', 'write to this file')
    .option('--json', 'short for --format json')
    .option('--quiet', 'with --out, say nothing about it')
    .addHelpText('after', '\nExample:\n  leatherbook compare p0142 "Ludan Perr" --book my-book --position 6')
    .action(async (who: string[], words: CompareWords) => {
      const { compare } = await import('../commands/compare.ts');
      const { book, position, season } = words;
      const comparison = await compare({ book, who, position, season }, { now: console.now });
      const answer = {
        json: () => `${JSON.stringify(comparison)}\n`,
        csv: () => compareCsv(comparison),
        text: () => compareText(comparison),
      }[words.json === true ? 'json' : words.format]();
      await handOut(answer, words, console);
    });
}
