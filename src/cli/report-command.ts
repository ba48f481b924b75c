import type { Command } from 'commander';
import type { Console } from './console.ts';
import { wholeNumber } from './option-values.ts';

interface ReportWords {
  readonly book: string;
  readonly out: string;
  readonly season?: number;
  readonly minChances: number;
  readonly title?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerReport(program: Command, console: Console): void {
  program
    .command('report')
    .description('Writes a season as a page of HTML and a PDF, for people without the program.')
    .requiredOption('--book <dir>', 'the book, built')
    .requiredOption('--out <dir>', 'the folder to write report.html and report.pdf into')
    .option('--season <y>', 'the season; the last one unless told', wholeNumber(1, 9999))
    .option('--min-chances <n>', 'defenders with at least so many chances', wholeNumber(0, 100_000), 25)
    .option('--title <words>', "what it is called; the name of the book's folder unless told")
    .option('--json', 'answer with JSON')
    .option('--quiet', 'say nothing about what was written')
    .addHelpText('after', '\nExample:\n  leatherbook report --book my-book --out report --title "Valley league"')
    .action(async ({ json, quiet, ...options }: ReportWords) => {
      const { report, reportEffects } = await import('../commands/report.ts');
      const answer = await report(options, reportEffects(console.now));
      if (json === true) console.out(`${JSON.stringify(answer)}\n`);
      else if (quiet !== true) console.out(`${[answer.html, answer.pdf].filter((file) => file !== null).join('\n')}\n`);
      if (answer.warning !== null) console.err(`${answer.warning}\n`);
    });
}
