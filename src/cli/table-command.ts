import { type Command, InvalidArgumentError, Option } from 'commander';
import { TABLE_NAMES } from '../commands/table/table-query.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Console } from './console.ts';
import { wholeNumber } from './option-values.ts';

interface TableWords {
  readonly book: string;
  readonly season?: number;
  readonly position?: number;
  readonly team?: string;
  readonly part?: string;
  readonly minChances?: number;
  readonly career?: boolean;
  readonly limit?: number;
  readonly format?: 'text' | 'csv' | 'json' | 'parquet';
  readonly json?: boolean;
  readonly out?: string;
  readonly quiet?: boolean;
}

export function registerTable(program: Command, console: Console): void {
  program
    .command('table')
    .description('Prints one table of a book, or writes it to a file.')
    .argument('<name>', TABLE_NAMES.join(', '))
    .requiredOption('--book <dir>', 'the book to read')
    .option('--season <y>', 'only rows of this season', wholeNumber(1, 9999))
    .option('--position <n>', "only rows of this position, by the scorekeeper's number", wholeNumber(1, 9))
    .option('--team <t>', 'only rows of this club')
    .option('--part <name>', 'ratings only: all, ground, air, or a direction such as backhand')
    .option('--min-chances <n>', 'only fielders with at least so many chances', atLeastZero)
    .option('--career', 'fielders only: one row a defender and position, over all seasons and clubs')
    .option('--limit <n>', 'at most so many rows; 50 as text, all otherwise', wholeNumber(0, 2 ** 31))
    .addOption(
      new Option('--format <form>', 'text for reading (the default), or csv, json, parquet in full precision').choices([
        'text',
        'csv',
        'json',
        'parquet',
      ]),
    )
    .option('--json', 'the same as --format json')
    .option('--out <file>', 'write to this file instead of standard output; parquet needs one')
    .option('--quiet', 'say nothing about a file that was written')
    .addHelpText(
      'after',
      [
        '',
        'Examples:',
        '  leatherbook table fielders --book my-book --season 2033 --position 6 --min-chances 50',
        '  leatherbook table entries --book my-book --format csv --out entries.csv',
      ].join('\n'),
    )
    .action(async (name: string, words: TableWords) => {
      const { table } = await import('../commands/table.ts');
      const { json, quiet, ...rest } = words;
      const answer = await table({ ...rest, name, format: formatOf(words) }, { now: console.now });
      for (const chunk of answer.chunks) console.out(chunk);
      if (answer.out !== undefined && quiet !== true) console.err(`${answer.shownCount} rows in ${answer.out}\n`);
    });
}

function formatOf({ format, json }: TableWords): NonNullable<TableWords['format']> {
  if (json && format !== undefined && format !== 'json') {
    throw new ExpectedFailure('usage', `--json does not go with --format ${format}`, 'Leave one of the two out.');
  }
  return json ? 'json' : (format ?? 'text');
}

function atLeastZero(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value) || value < 0) {
    throw new InvalidArgumentError('It must be a number from 0 up.');
  }
  return value;
}
