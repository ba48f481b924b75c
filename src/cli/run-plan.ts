import type { Paper } from '../commands/cards/papers.ts';
import type { Situation } from '../commands/plans/situations.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { cardSvg } from '../plans/card/card-svg.ts';
import type { Plan } from '../plans/plan-types.ts';
import type { PlanDepth, PlanRule } from '../plans/spot-limits.ts';
import type { Console } from './console.ts';
import { planText } from './plan-text.ts';
import { plansText } from './plans-text.ts';

/** The options of `plan` as they were typed. */
export interface PlanWords {
  readonly book: string;
  readonly batter?: string;
  readonly lineup?: string;
  readonly all?: boolean;
  readonly defence: string;
  readonly side?: 'L' | 'R';
  readonly outs?: number;
  readonly runners?: number;
  readonly situations?: readonly Situation[];
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
  readonly out?: string;
  readonly paper: Paper;
  readonly threads: number;
  readonly queue?: string;
  readonly again?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

type Form = 'text' | 'json' | 'card';

/** `plan` for one batter, a line-up or a whole league. */
export async function runPlan(words: PlanWords, console: Console): Promise<void> {
  const whose = [words.batter, words.lineup, words.all].filter((given) => given !== undefined);
  if (whose.length !== 1) {
    throw new ExpectedFailure(
      'usage',
      `plan wants one of --batter, --lineup and --all and got ${whose.length} of them`,
      'Say against whom: --batter WHO, --lineup WHO,WHO,... or --all.',
    );
  }
  const form = words.json === true ? 'json' : words.format;
  if (words.batter === undefined) await planForMany(words, form, console);
  else await planForOne(words, words.batter, form, console);
}

async function planForOne(words: PlanWords, batter: string, form: Form, console: Console): Promise<void> {
  refuse(words.situations !== undefined, '--situations', '--batter', 'Use --outs and --runners.');
  refuse(words.queue !== undefined, '--queue', '--batter', 'One plan is a matter of a second.');
  const { plan } = await import('../commands/plan.ts');
  const { book, side, swap, outs = 0, runners: bases = 0 } = words;
  const asked = { swap, outs, bases, ...shared(words) };
  const answer = await plan(
    { book, batter, side, ...asked },
    { progress: console.progress(words.quiet === true), now: console.now },
  );
  const nameOf = (id: string) => answer.names.get(id) ?? id;
  if (form === 'json') await deliver(words, console, `${JSON.stringify(answer.plan)}\n`);
  else if (form === 'text') await deliver(words, console, planText(answer.plan, asked, nameOf));
  else if (words.out?.toLowerCase().endsWith('.pdf') !== true) {
    await deliver(words, console, cardSvg(answer.plan, answer.names, console.now().getFullYear()));
  } else {
    await deliver(words, console, await cards([answer.plan], answer.names, words, console));
  }
}

async function planForMany(words: PlanWords, form: Form, console: Console): Promise<void> {
  const many = words.all === true ? '--all' : '--lineup';
  refuse(words.swap !== undefined, '--swap', many, 'Ask it of one batter at a time.');
  refuse(words.side !== undefined, '--side', many, 'Put the side behind the man in a line-up: p0010:L.');
  if (form === 'card' && words.out?.toLowerCase().endsWith('.pdf') !== true) {
    throw new ExpectedFailure('usage', `cards for ${many} are a PDF`, 'Name the file: --out cards.pdf.');
  }
  const { planMany } = await import('../commands/plan-many.ts');
  const { book, threads, queue, again } = words;
  const report = await planMany(
    {
      book,
      batters: words.lineup === undefined ? 'all' : { lineup: words.lineup },
      situations: await situationsOf(words),
      threads,
      queue,
      again,
      ...shared(words),
    },
    {
      progress: console.progress(words.quiet === true),
      now: console.now,
      notify: (line) => console.err(`${line}\n`),
    },
  );
  const plans = report.plans.map(({ plan }) => plan);
  if (form === 'json') await deliver(words, console, `${JSON.stringify(plans)}\n`);
  else if (form === 'text') await deliver(words, console, plansText(report));
  else await deliver(words, console, await cards(plans, report.names, words, console, report.season));
  if (report.failures.length > 0) {
    const [{ question, why }] = report.failures as [(typeof report.failures)[0]];
    throw new ExpectedFailure(
      'data',
      `${report.failures.length} plans could not be made; the first, against ${question.batter} (${question.side}): ${why}`,
      'The others are kept. Ask for these batters one at a time with --batter to see what is the matter.',
    );
  }
}

/** What a plan is asked besides the batter and the situation. */
function shared(words: PlanWords) {
  const { defence, rule, depth, hold, outfield, anywhere, ownMen, pitcher, safe: safeS, seed } = words;
  return { defence, rule, depth, hold, outfield, anywhere, ownMen, pitcher, safeS, seed };
}

async function situationsOf({ situations, outs, runners }: PlanWords): Promise<readonly Situation[]> {
  const one = outs !== undefined || runners !== undefined;
  if (situations !== undefined && one) refuse(true, '--situations', '--outs and --runners', 'Give one or the other.');
  if (one) return [{ outs: outs ?? 0, bases: runners ?? 0 }];
  const { parseSituations, USUAL_SITUATIONS } = await import('../commands/plans/situations.ts');
  return situations ?? parseSituations(USUAL_SITUATIONS)!;
}

function refuse(isGiven: boolean, option: string, other: string, remedy: string): void {
  if (isGiven) throw new ExpectedFailure('usage', `${option} does not go with ${other}`, remedy);
}

async function cards(
  plans: readonly Plan[],
  names: ReadonlyMap<string, string>,
  { paper }: PlanWords,
  console: Console,
  season = console.now().getFullYear(),
): Promise<Buffer> {
  const { cardPages } = await import('../commands/cards/card-pages.ts');
  return cardPages(plans, { paper, names, season, now: console.now });
}

async function deliver({ out, quiet }: PlanWords, console: Console, content: string | Buffer): Promise<void> {
  if (out === undefined) {
    console.out(String(content));
    return;
  }
  const { writeOut } = await import('../commands/table/write-out.ts');
  const { writeFileSync } = await import('node:fs');
  await writeOut(out, async (draft) => writeFileSync(draft, content));
  if (quiet !== true) console.err(`${out} is written\n`);
}
