import { readSettings } from '../book/book-info.ts';
import { type Book, openBook } from '../book/open-book.ts';
import { readNames, readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { didYouMean, listWords } from '../intake/nearest-word.ts';
import { fitHits } from '../ledger/runs/hit-model.ts';
import { runValues } from '../ledger/runs/run-values.ts';
import { RUN_MODES, type RunMode } from '../ledger/runs/stakes.ts';
import type { Plan, PlanQuestion } from '../plans/plan-types.ts';
import { type PlanGrounds, preparePlans } from '../plans/prepare-plans.ts';
import { solvePlan } from '../plans/solve-plan.ts';
import type { Progress } from '../progress.ts';
import { unpackBuild } from './build-file.ts';

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
  const { models } = await unpackBuild((name) => readModelFile(book, name));
  const table = await readPlayTable(book);
  const settings = await readSettings(book.store);
  const mode = RUN_MODES.find((each) => each === settings.runs) ?? 'flat';
  return preparePlans({
    table,
    grounders: models.grounders,
    air: models.air,
    runs: { mode, models: stakeModels(mode) },
  });

  function stakeModels(of: RunMode) {
    return of === 'flat' ? undefined : { values: runValues(table), hits: fitHits(table) };
  }
}

/**
 * The question with ids in the place of names.
 * @throws ExpectedFailure `data` for somebody whom the book does not know, with the nearest names
 */
export function namedQuestion(
  { data: { table } }: PlanGrounds,
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
