import type { Cell, ColumnType } from '../book/store.ts';
import type { PlacementMap } from '../commands/explain/placement-map.ts';
import type { PlayStory } from '../commands/explain/play-story.ts';
import type { FoundPlays } from '../commands/find-plays.ts';
import type { FailureKind, FailurePlace } from '../expected-failure.ts';

/** What the routes answer with, in one place for the pages that read it. Nothing here needs a server to be understood. */

/** What a page gets instead of an answer: what is wrong and what to do. */
export interface FailureAnswer {
  readonly error: {
    readonly kind: FailureKind | 'missing' | 'refused' | 'bug';
    readonly message: string;
    readonly remedy: string;
    readonly place?: FailurePlace;
  };
}

/** `/api/book`: what every page needs to know of the book. */
export interface BookAnswer {
  /** Changes whenever the book does; a page that sees another one asks anew. */
  readonly version: string;
  readonly name: string;
  readonly program_version: string;
  /** Null before the first build. */
  readonly build_id: string | null;
  /** Settings of the last build, by name. */
  readonly settings: Readonly<Record<string, string>>;
  readonly seasons: readonly number[];
  readonly teams: readonly string[];
  readonly plays: number;
  /** Why what is shown may be older than the book. */
  readonly behind: { readonly message: string; readonly remedy: string } | null;
}

/** A column as it goes to the page: null for an empty cell. */
export interface JsonColumn {
  readonly name: string;
  readonly type: ColumnType;
  readonly values: readonly Cell[];
}

/** `/api/table/NAME`: a window of rows of one table, by columns. */
export interface TableAnswer {
  readonly name: string;
  readonly version: string;
  /** Rows that match, of which the window shows some. */
  readonly row_count: number;
  readonly from: number;
  readonly columns: readonly JsonColumn[];
}

/** `/api/play/ID`: one play; a number that was not recorded is null here and NaN in its type. */
export interface PlayAnswer extends PlayStory {
  readonly version: string;
}

/** `/api/plays`: plays that match. */
export interface FoundPlaysAnswer extends FoundPlays {
  readonly version: string;
}

/** `/api/defender/ID/placement`: his starts beside the even spots; null when the book has no such balls. */
export interface PlacementAnswer {
  readonly placement: PlacementMap | null;
}

/** Rows of a view of the book, by columns. */
export interface ViewAnswer {
  readonly version: string;
  readonly columns: readonly JsonColumn[];
}

/** `/api/latest`: what the latest date of a season brought. */
export interface LatestAnswer {
  readonly version: string;
  readonly date: string | null;
  readonly plays: number;
  readonly clubs: readonly JsonColumn[];
  readonly entries: readonly JsonColumn[];
}
