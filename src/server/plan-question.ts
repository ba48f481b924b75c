import { SIDES } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { type PlanQuestion, parseRunners } from '../plans/plan-types.ts';
import { PLAN_DEPTHS, PLAN_RULES } from '../plans/spot-limits.ts';

const YES_NO = ['yes', 'no'] as const;
const OUTS = ['0', '1', '2'] as const;
const SEED = 1;

/**
 * What a plan is asked for, in the words of an address: batter, defence, side, outs, runners, rule, depth, hold, outfield, anywhere,
 * own_men, swap (`6_p0042`, more parted by commas) and pitcher. What is left out is as `leatherbook plan` has it.
 * @throws ExpectedFailure `usage` for a word that means nothing
 */
export function planQuestionOf(word: (name: string) => string | undefined): PlanQuestion {
  const given = (name: string) => word(name) || undefined;
  const needed = (name: string) => {
    const text = given(name);
    if (text !== undefined) return text;
    throw new ExpectedFailure('usage', `A plan wants a ${name} and got none.`, `Choose a ${name}.`);
  };
  const oneOf = <T extends string>(name: string, words: readonly T[]): T | undefined => {
    const text = given(name);
    const found = words.find((each) => each === text);
    if (text === undefined || found !== undefined) return found;
    throw new ExpectedFailure('usage', `${name} is one of ${words.join(', ')} and not ${text}.`, `Correct ${name}.`);
  };
  const isYes = (name: string) => oneOf(name, YES_NO) === 'yes';
  const hold = oneOf('hold', YES_NO);
  const swap = swapOf(given('swap'));
  return {
    batter: needed('batter'),
    defence: needed('defence'),
    side: oneOf('side', SIDES),
    outs: Number(oneOf('outs', OUTS) ?? '0'),
    bases: basesOf(given('runners') ?? 'none'),
    rule: oneOf('rule', PLAN_RULES) ?? 'two-a-side',
    depth: oneOf('depth', PLAN_DEPTHS),
    hold: hold === undefined ? undefined : hold === 'yes',
    outfield: isYes('outfield'),
    anywhere: isYes('anywhere'),
    ownMen: isYes('own_men'),
    ...(swap === undefined ? {} : { swap }),
    pitcher: given('pitcher'),
    seed: SEED,
  };
}

function basesOf(text: string): number {
  const bases = parseRunners(text);
  if (bases !== null) return bases;
  throw new ExpectedFailure(
    'usage',
    `runners is occupied bases, such as none, 1--, -2- or 1-3, and not ${text}.`,
    'Correct runners.',
  );
}

function swapOf(text: string | undefined): ReadonlyMap<number, string> | undefined {
  if (text === undefined) return undefined;
  const pairs = text.split(',').map((part) => /^([1-9])_(.+)$/.exec(part));
  if (pairs.every((pair) => pair !== null)) return new Map(pairs.map(([, position, who]) => [Number(position), who!]));
  throw new ExpectedFailure(
    'usage',
    `swap is a position and a man, such as 6_p0042, and not ${text}.`,
    'Correct swap.',
  );
}
