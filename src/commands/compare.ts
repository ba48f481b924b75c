import { BUILD_ID, readInfo, readSettings } from '../book/book-info.ts';
import { type Book, openBook } from '../book/open-book.ts';
import { readDefenderGames } from '../book/read-defender-games.ts';
import { quoteText } from '../book/sql-text.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import {
  COMPARED_RATES,
  COMPARED_SUMS,
  type Compared,
  compareRows,
  type Difference,
  type Estimate,
} from '../ratings/compare.ts';
import { WHOLE_PART } from '../ratings/directions.ts';
import { drawPoissonWeights } from '../ratings/poisson-weights.ts';
import { REPLICATES } from './build.ts';
import {
  type ComparedRating,
  compareRatings,
  positionsWithoutDirections,
  readRatings,
} from './compare/compare-ratings.ts';
import { type Defender, findDefenders } from './compare/find-defenders.ts';

export interface CompareOptions {
  readonly book: string;
  /** Two or more: ids, or parts of names that only one defender has. */
  readonly who: readonly string[];
  /** All positions and seasons together unless given. */
  readonly position?: number | undefined;
  readonly season?: number | undefined;
}

export interface CompareEffects {
  readonly now: () => Date;
}

/** Values by kind of entry, and `net`. */
export type ByKind<Value> = Readonly<Record<string, Value>>;

export interface ComparedDefender extends Defender {
  readonly positions: readonly number[];
  readonly seasons: readonly number[];
  readonly teams: readonly string[];
  readonly games: number;
  readonly plays: number;
  readonly chances: number;
  /** Share of the plays that are fully recorded; rates are over them. */
  readonly shareFull: number;
  readonly runs: ByKind<Estimate>;
  /** NaN with few chances or games. */
  readonly outsPer100: ByKind<Estimate>;
  /** Extra outs per 100 average chances by position and direction; the last season's, or the one asked for. */
  readonly ratings: readonly ComparedRating<Estimate>[];
}

/** The first defender less another. */
export interface ComparedDifference {
  readonly to: Defender;
  readonly runs: ByKind<Difference>;
  readonly outsPer100: ByKind<Difference>;
  /** At the positions, and in the directions, in which both have one. */
  readonly ratings: readonly ComparedRating<Difference>[];
}

export interface Comparison {
  readonly position: number | null;
  readonly season: number | null;
  /** Of the bootstrap that the intervals come from, the same as the build's. */
  readonly replicates: number;
  readonly seed: number;
  readonly defenders: readonly ComparedDefender[];
  readonly differences: readonly ComparedDifference[];
  /** What to bear in mind with these men. */
  readonly notes: readonly string[];
}

/**
 * Sets two or more defenders side by side: sums, rates and ratings with intervals, and the first less each of the others.
 * @throws ExpectedFailure `usage`: fewer than two, nobody or several of a name, nothing at that position or season; `book`: not built
 */
export async function compare(options: CompareOptions, effects: CompareEffects): Promise<Comparison> {
  const { position, season } = options;
  if (options.who.length < 2) {
    throw new ExpectedFailure('usage', 'compare wants at least two defenders.', 'Name another one.');
  }
  const book = await openBook(options.book, { access: 'read', command: 'leatherbook compare', now: effects.now });
  try {
    if ((await readInfo(book.store, BUILD_ID)) === null) {
      const remedy = `Run: leatherbook build --book ${book.dir}`;
      throw new ExpectedFailure('book', `The book ${book.dir} has not been built.`, remedy);
    }
    const men = await findDefenders(book.store, options.who);
    const ids = men.map(({ id }) => id);
    const { cells, games } = await readDefenderGames(book, ids, options);
    men.forEach((man, r) => {
      if (cells.start[r + 1] === cells.start[r]) throw absent(man, options);
    });
    const { replicates, seed } = await bootstrapOf(book);
    const { rows, firstLess } = compareRows(cells, drawPoissonWeights(games, replicates, seed));
    const ratings = await readRatings(book.store, ids, options);
    const facts = await readFacts(book, ids, options);
    const defenders = men.map((man, r): ComparedDefender => {
      const sum = (column: Float64Array) =>
        column.subarray(cells.start[r], cells.start[r + 1]).reduce((all, value) => all + value, 0);
      const plays = sum(cells.plays);
      return {
        ...man,
        ...facts.get(man.id)!,
        games: cells.start[r + 1]! - cells.start[r]!,
        plays,
        chances: sum(cells.chances),
        shareFull: sum(cells.fullPlays) / plays,
        ...named(rows[r]!),
        ratings: ratings.get(man.id) ?? [],
      };
    });
    const differences = firstLess.map((difference, k) => ({
      to: men[k + 1]!,
      ...named(difference),
      ratings: compareRatings(defenders[0]!.ratings, defenders[k + 1]!.ratings),
    }));
    return {
      position: position ?? null,
      season: season ?? null,
      replicates,
      seed,
      defenders,
      differences,
      notes: [...notesOn(defenders)],
    };
  } finally {
    await book.close();
  }
}

function named<Value>({ runs, outsPer100 }: Compared<Value>): { runs: ByKind<Value>; outsPer100: ByKind<Value> } {
  return {
    runs: Object.fromEntries(COMPARED_SUMS.map((kind, k) => [kind, runs[k]!])),
    outsPer100: Object.fromEntries(COMPARED_RATES.map((kind, k) => [kind, outsPer100[k]!])),
  };
}

/** The build's own replicates, so that a table and a comparison say the same; a build without any has none to agree with. */
async function bootstrapOf(book: Book): Promise<{ replicates: number; seed: number }> {
  const settings = await readSettings(book.store);
  return { replicates: Number(settings.replicates ?? 0) || REPLICATES, seed: Number(settings.seed ?? 1) };
}

function absent({ id, name }: Defender, { position, season }: CompareOptions): ExpectedFailure {
  const where = [
    ...(position === undefined ? [] : [`at position ${position}`]),
    ...(season === undefined ? [] : [`in ${season}`]),
  ].join(' ');
  return new ExpectedFailure(
    'usage',
    `${name ?? id} has no play ${where}.`,
    'Leave out --position or --season, or name somebody else.',
  );
}

async function readFacts(book: Book, ids: readonly string[], { position, season }: CompareOptions) {
  const rows = await book.store.rows(
    `SELECT fielder_id, position, season, team, chances FROM fielders
     WHERE fielder_id IN (${ids.map(quoteText).join(', ')})
       ${position === undefined ? '' : `AND position = ${position}`} ${season === undefined ? '' : `AND season = ${season}`}
     ORDER BY season, chances DESC, team`,
  );
  return new Map(
    ids.map((id) => {
      const own = rows.filter((row) => row.fielder_id === id);
      return [
        id,
        {
          positions: [...new Set(own.map((row) => Number(row.position)))].sort((a, b) => a - b),
          seasons: [...new Set(own.map((row) => Number(row.season)))],
          teams: [...new Set(own.map((row) => String(row.team)))],
        },
      ];
    }),
  );
}

function listed(numbers: readonly number[]): string {
  const head = numbers.slice(0, -1).join(', ');
  return head === '' ? String(numbers.at(-1)) : `${head} and ${numbers.at(-1)}`;
}

const LITTLE_FULL = 0.9;

function* notesOn(defenders: readonly ComparedDefender[]): Generator<string> {
  if (new Set(defenders.map(({ positions }) => positions.join())).size > 1) {
    yield 'They have not stood at the same positions, whose averages differ; --position N compares them at one.';
  }
  if (defenders.some(({ shareFull }) => shareFull < LITTLE_FULL)) {
    yield `Less than ${100 * LITTLE_FULL} % of the plays of one of them are fully recorded: rates rest on those, sums on all.`;
  }
  if (defenders.some(({ runs }) => Number.isNaN(runs.net!.lo80))) {
    yield 'One of them has too few games for an interval.';
  }
  const ratings = defenders.flatMap((own) => own.ratings);
  if (ratings.some(({ part }) => part !== WHOLE_PART)) {
    yield 'The rating of a direction is per 100 average chances in that direction.';
  }
  const whole = positionsWithoutDirections(ratings);
  if (whole.length > 0) {
    yield `At ${whole.length > 1 ? 'positions' : 'position'} ${listed(whole)} reach is rated as a whole: the evidence does not tell men's directions apart there.`;
  }
}
