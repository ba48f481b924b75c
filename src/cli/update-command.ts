import type { Command } from 'commander';
import { updateText } from './build-text.ts';
import type { Console } from './console.ts';

interface UpdateWords {
  readonly book: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerUpdate(program: Command, console: Console): void {
  program
    .command('update')
    .description('Scores plays that came in since the last build, with its models and settings; nothing is fitted.')
    .requiredOption('--book <dir>', 'the book to bring up to date; it must have been built')
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText(
      'after',
      [
        '',
        'Examples:',
        '  leatherbook intake --book my-book --mapping mapping.yaml',
        '  leatherbook update --book my-book',
      ].join('\n'),
    )
    .action(async ({ book, json, quiet }: UpdateWords) => {
      const { update } = await import('../commands/update.ts');
      const report = await update({ book }, { progress: console.progress(quiet === true), now: console.now });
      console.out(json ? `${JSON.stringify(report)}\n` : updateText(report));
    });
}
