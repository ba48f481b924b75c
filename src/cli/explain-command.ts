import type { Command } from 'commander';
import type { Console } from './console.ts';
import { explanationText } from './explanation-text.ts';

interface ExplainWords {
  readonly book: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerExplain(program: Command, console: Console): void {
  program
    .command('explain')
    .description("Tells one play's story in words and numbers: each mark, each entry, and what each came from.")
    .argument('<play-id>', 'the play, by its play_id')
    .requiredOption('--book <dir>', 'the book that holds the play')
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText('after', '\nExample:\n  leatherbook explain 2031-0412-17 --book my-book')
    .action(async (playId: string, words: ExplainWords) => {
      const { explain } = await import('../commands/explain.ts');
      const progress = console.progress(words.quiet === true);
      const explanation = await explain({ book: words.book, playId }, { progress, now: console.now });
      console.out(words.json ? `${JSON.stringify(explanation)}\n` : explanationText(explanation));
    });
}
