import { availableParallelism } from 'node:os';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { PAPERS } from '../commands/cards/papers.ts';
import { parseSituations, type Situation } from '../commands/plans/situations.ts';
import { parseRunners } from '../plans/plan-types.ts';
import { PLAN_DEPTHS, PLAN_RULES } from '../plans/spot-limits.ts';
import type { Console } from './console.ts';
import { MAX_SEED, wholeNumber } from './option-values.ts';
import { type PlanWords, runPlan } from './run-plan.ts';

export function registerPlan(program: Command, console: Console): void {
  program
    .command('plan')
    .description('Says where to stand against a batter, what that gains and how sure it is.')
    .requiredOption('--book <dir>', 'the book, built')
    .option('--batter <who>', 'the batter, by id or name')
    .option('--lineup <who>', 'a line-up instead: ids or names parted by commas, or a file with one a line')
    .option('--all', 'everybody who bats for another club in the last season instead')
    .requiredOption('--defence <team>', 'the club in the field')
    .addOption(new Option('--side <side>', 'the side he bats from; his usual one unless told').choices(['L', 'R']))
    .option('--outs <n>', 'outs before the pitch; 0 unless told', wholeNumber(0, 2))
    .option('--runners <bases>', 'occupied bases: none (unless told), 1--, -2-, 1-3 and so on', runners)
    .option(
      '--situations <list>',
      'for many batters: outs and bases, such as 0:---,1:1-3, or every; eight usual ones unless told',
      situations,
    )
    .addOption(
      new Option(
        '--rule <rule>',
        'two-a-side: two infielders on each side of second base, on the infield; open: no rule',
      )
        .choices([...PLAN_RULES])
        .default('two-a-side'),
    )
    .addOption(
      new Option(
        '--depth <depth>',
        'how deep the infield plays; double-play with a runner on first and fewer than two out',
      ).choices([...PLAN_DEPTHS]),
    )
    .option('--hold', 'the first baseman holds the runner on first, as he does with second base empty')
    .option('--no-hold', 'he does not')
    .option('--outfield', 'place the three outfielders as well')
    .option('--anywhere', 'let men stand where nobody at their position was seen')
    .option('--own-men', 'reckon with the ratings of the men of the club, not with average men')
    .option('--swap <position=who>', 'what if another man played there; may be given again', swap)
    .option('--pitcher <who>', "lean the batter's balls toward what this pitcher gives up")
    .option('--safe <seconds>', 'warn where a man has less time against his hardest balls', seconds, 0.4)
    .option('--seed <s>', 'the same seed gives the same plan', wholeNumber(0, MAX_SEED), 1)
    .addOption(
      new Option('--format <form>', 'the form of the answer').choices(['text', 'json', 'card']).default('text'),
    )
    .option('--out <file>', 'write to this file; a card for one batter to .svg or .pdf, for many to .pdf')
    .addOption(new Option('--paper <size>', 'the paper of a PDF').choices([...PAPERS]).default('a4'))
    .option(
      '--threads <n>',
      'threads for many batters; as many as the machine runs',
      wholeNumber(1, 256),
      availableParallelism(),
    )
    .option('--queue <url>', 'let the workers of this PostgreSQL queue plan for many batters (see work)')
    .option('--again', 'for many batters: make plans again that the book has')
    .option('--json', 'short for --format json')
    .option('--quiet', 'show no progress')
    .addHelpText(
      'after',
      [
        '\nExamples:',
        '  leatherbook plan --book my-book --batter p0010 --defence Sandrake',
        '  leatherbook plan --book my-book --batter p0010 --defence Sandrake --outs 1 --runners 1-3 --format card',
        '  leatherbook plan --book my-book --lineup tonight.txt --defence Sandrake --format card --out cards.pdf',
        '  leatherbook plan --book my-book --all --defence Sandrake',
      ].join('\n'),
    )
    .action((words: PlanWords) => runPlan(words, console));
}

function runners(text: string): number {
  const bases = parseRunners(text);
  if (bases === null)
    throw new InvalidArgumentError('It names occupied bases, such as none, 1--, -2-, 12-, 1-3 or 123.');
  return bases;
}

function seconds(text: string): number {
  const value = Number(text);
  if (!(value >= 0 && value <= 5)) throw new InvalidArgumentError('It must be a number of seconds from 0 to 5.');
  return value;
}

function swap(text: string, before?: ReadonlyMap<number, string>): ReadonlyMap<number, string> {
  const found = /^([1-9])=(.+)$/.exec(text);
  if (found === null) throw new InvalidArgumentError('It wants a position and a man, such as 6=p0042.');
  return new Map([...(before ?? []), [Number(found[1]), found[2]]]);
}

function situations(text: string): Situation[] {
  const found = parseSituations(text);
  if (found !== null) return found;
  throw new InvalidArgumentError('It names outs and bases, such as 0:---,1:1-3, or says every.');
}
