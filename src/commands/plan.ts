import { type Book, openBook } from '../book/open-book.ts';
import { readNames } from '../book/read-play-table.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { didYouMean, listWords } from '../intake/nearest-word.ts';
import type { Plan, PlanQuestion } from '../plans/plan-types.ts';
import type { PlanGrounds } from '../plans/prepare-plans.ts';
import { solvePlan } from '../plans/solve-plan.ts';
import type { Progress } from '../progress.ts';
import { groundsFrom, readPlanInputs } from './plan-inputs.ts';

export interface PlanOptions extends PlanQuestion {
  readonly book: string;
}

export interface PlanEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface PlanAnswer {
  readonly plan: Plan;
  /** Names by person id, for those who have one. */
  readonly names: ReadonlyMap<string, string>;
}

/** Where to stand against one batter. Batter, club, pitcher and other men may be given by id or by name. */
export async function plan(options: PlanOptions, effects: PlanEffects): Promise<PlanAnswer> {
  const book = await openBook(options.book, { access: 'read', command: 'plan', now: effects.now });
  try {
    const [grounds, names] = [await readPlanGrounds(book), await readNames(book)];
    return { plan: solvePlan(grounds, namedQuestion(grounds, names, options)), names };
  } finally {
    await book.close();
  }
}

/** Everything that plans need of a built book, for one question after another. */
export async function readPlanGrounds(book: Book): Promise<PlanGrounds> {
  return groundsFrom(await readPlanInputs(book));
}

/**
 * The question with ids in the place of names.
 * @throws ExpectedFailure `data` for somebody whom the book does not know, with the nearest names
 */
export function namedQuestion(
  { data: { table } }: { readonly data: Pick<PlanGrounds['data'], 'table'> },
  names: ReadonlyMap<string, string>,
  question: PlanQuestion,
): PlanQuestion {
  const idOf = (text: string, what: string) => {
    if (table.people.includes(text)) return text;
    const named = table.people.filter((id) => names.get(id)?.toLowerCase() === text.toLowerCase());
    if (named.length === 1) return named[0];
    if (named.length > 1)
      throw new ExpectedFailure(
        'data',
        `${named.length} people are called ${text}.`,
        `Give one of their ids: ${listWords(named)}.`,
      );
    const known = [...table.people, ...table.people.flatMap((id) => names.get(id) ?? [])];
    throw new ExpectedFailure(
      'data',
      `The book knows no ${what} "${text}".${didYouMean(text, known)}`,
      'Give a name or an id from it: leatherbook table fielders and leatherbook table plays show them.',
    );
  };
  if (!table.teams.includes(question.defence)) {
    throw new ExpectedFailure(
      'data',
      `The book knows no club "${question.defence}".${didYouMean(question.defence, table.teams)}`,
      `Its clubs are ${listWords(table.teams)}.`,
    );
  }
  return {
    ...question,
    batter: idOf(question.batter, 'batter'),
    pitcher: question.pitcher === undefined ? undefined : idOf(question.pitcher, 'pitcher'),
    swap: question.swap && new Map([...question.swap].map(([position, text]) => [position, idOf(text, 'man')])),
  };
}
