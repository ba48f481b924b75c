import type { Command } from 'commander';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Console } from './console.ts';
import { intakeText } from './intake-text.ts';

interface IntakeWords {
  readonly book?: string;
  readonly mapping?: string;
  readonly replace?: boolean;
  readonly dryRun?: boolean;
  readonly sketch?: string[];
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerIntake(program: Command, console: Console): void {
  program
    .command('intake')
    .description('Reads files into a book through a mapping file. Every row is loaded or set aside with its reason.')
    .option('--book <dir>', 'the book to read into; it is made when it is not there')
    .option('--mapping <file>', 'the mapping file: which column of yours is which of ours')
    .option('--replace', 'take over plays that differ from those already in the book, instead of setting them aside')
    .option('--dry-run', 'do everything, print the counts, and leave the book as it was')
    .option(
      '--sketch <file...>',
      'write a first mapping for these files to standard output, and read nothing into a book',
    )
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText(
      'after',
      [
        '',
        'Examples:',
        '  leatherbook intake --sketch balls.csv people.csv > mapping.yaml',
        '  leatherbook intake --book my-book --mapping mapping.yaml',
      ].join('\n'),
    )
    .action(async (words: IntakeWords) => {
      const { intake, sketch } = await import('../commands/intake.ts');
      const progress = console.progress(words.quiet === true);
      if (words.sketch !== undefined) {
        refuseBesideSketch(words);
        console.out(await sketch({ files: words.sketch }, { progress }));
        return;
      }
      const book = needed('--book', words.book);
      const mapping = needed('--mapping', words.mapping);
      const { replace = false, dryRun = false } = words;
      const report = await intake({ book, mapping, replace, dryRun }, { progress, now: console.now });
      console.out(words.json ? `${JSON.stringify(report)}\n` : intakeText(report));
    });
}

function needed(option: string, value: string | undefined): string {
  if (value !== undefined) return value;
  throw new ExpectedFailure(
    'usage',
    `intake needs ${option}`,
    'Give --book and --mapping, or --sketch with your files.',
  );
}

function refuseBesideSketch(words: IntakeWords): void {
  if ([words.book, words.mapping, words.replace, words.dryRun].every((word) => word === undefined)) return;
  throw new ExpectedFailure(
    'usage',
    '--sketch stands alone: it reads nothing into a book',
    'Leave out --book, --mapping, --replace and --dry-run, or leave out --sketch.',
  );
}
