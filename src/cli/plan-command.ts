import { type Command, InvalidArgumentError, Option } from 'commander';
import { planCardSvg } from '../plans/plan-card.ts';
import type { PlanQuestion } from '../plans/plan-types.ts';
import { parseRunners } from '../plans/plan-types.ts';
import { PLAN_DEPTHS, PLAN_RULES, type PlanDepth, type PlanRule } from '../plans/spot-limits.ts';
import type { Console } from './console.ts';
import { MAX_SEED, wholeNumber } from './option-values.ts';
import { planText } from './plan-text.ts';

interface PlanWords {
  readonly book: string;
  readonly batter: string;
  readonly defence: string;
  readonly side?: 'L' | 'R';
  readonly outs: number;
  readonly runners: number;
  readonly rule: PlanRule;
  readonly depth?: PlanDepth;
  readonly hold?: boolean;
  readonly outfield?: boolean;
  readonly anywhere?: boolean;
  readonly ownMen?: boolean;
  readonly swap?: ReadonlyMap<number, string>;
  readonly pitcher?: string;
  readonly safe: number;
  readonly seed: number;
  readonly format: 'text' | 'json' | 'card';
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerPlan(program: Command, console: Console): void {
  program
    .command('plan')
    .description('Says where to stand against a batter, what that gains and how sure it is.')
    .requiredOption('--book <dir>', 'the book, built')
    .requiredOption('--batter <who>', 'the batter, by id or name')
    .requiredOption('--defence <team>', 'the club in the field')
    .addOption(new Option('--side <side>', 'the side he bats from; his usual one unless told').choices(['L', 'R']))
    .option('--outs <n>', 'outs before the pitch', wholeNumber(0, 2), 0)
    .option('--runners <bases>', 'occupied bases: none, 1--, -2-, 1-3 and so on', runners, 0)
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
    .option('--json', 'short for --format json')
    .option('--quiet', 'show no progress')
    .addHelpText(
      'after',
      '\nExamples:\n  leatherbook plan --book my-book --batter p0010 --defence Sandrake\n  leatherbook plan --book my-book --batter p0010 --defence Sandrake --outs 1 --runners 1-3 --format card',
    )
    .action(async (words: PlanWords) => {
      const { plan } = await import('../commands/plan.ts');
      const progress = console.progress(words.quiet === true);
      const answer = await plan({ book: words.book, ...question(words) }, { progress, now: console.now });
      const nameOf = (id: string) => answer.names.get(id) ?? id;
      if (words.json === true || words.format === 'json') console.out(`${JSON.stringify(answer.plan)}\n`);
      else if (words.format === 'card') console.out(planCardSvg(answer.plan, nameOf));
      else console.out(planText(answer.plan, nameOf));
    });
}

function question(words: PlanWords): PlanQuestion {
  const {
    batter,
    defence,
    side,
    outs,
    runners: bases,
    rule,
    depth,
    hold,
    outfield,
    anywhere,
    ownMen,
    swap,
    pitcher,
  } = words;
  return {
    batter,
    defence,
    side,
    outs,
    bases,
    rule,
    depth,
    hold,
    outfield,
    anywhere,
    ownMen,
    swap,
    pitcher,
    safeS: words.safe,
    seed: words.seed,
  };
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
