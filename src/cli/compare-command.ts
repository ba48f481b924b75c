import type { Command } from 'commander';
import { compareText } from './compare-text.ts';
import type { Console } from './console.ts';
import { wholeNumber } from './option-values.ts';

interface CompareWords {
  readonly book: string;
  readonly position?: number;
  readonly season?: number;
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
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'accepted for the sake of scripts: this command shows no progress')
    .addHelpText('after', '\nExample:\n  leatherbook compare p0142 "Ludan Perr" --book my-book --position 6')
    .action(async (who: string[], words: CompareWords) => {
      const { compare } = await import('../commands/compare.ts');
      const { book, position, season } = words;
      const comparison = await compare({ book, who, position, season }, { now: console.now });
      console.out(words.json ? `${JSON.stringify(comparison)}\n` : compareText(comparison));
    });
}
