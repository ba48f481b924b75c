import type { Cell, ColumnType } from '../book/store.ts';
import type { PlacementMap } from '../commands/explain/placement-map.ts';
import type { PlayStory } from '../commands/explain/play-story.ts';
import type { TrustEvidence } from '../commands/trust/evidence.ts';
import type { Verdict } from '../commands/trust/verdict.ts';
import type { MarkCalibration } from '../commands/views/mark-calibration.ts';
import type { MissingData } from '../commands/views/missing-data.ts';
import type { FailureKind, FailurePlace } from '../expected-failure.ts';
import type { PlanCase } from '../plans/plan-case.ts';
import type { Plan } from '../plans/plan-types.ts';
import type { Task } from './work/work-messages.ts';

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

/** `/api/table/NAME`, and `/api/table/found_plays`: a window of rows, by columns. */
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

/** Work that goes on. */
export interface RunningWork {
  readonly task: Task;
  readonly stage: string;
  /** Steps of the stage; total is 0 when it is not known. */
  readonly done: number;
  readonly total: number;
  readonly seconds: number;
  readonly seconds_left_of_stage: number | null;
}

/** How the last work ended. */
export interface LastWork {
  readonly task: Task;
  readonly outcome: 'done' | 'stopped' | 'failed';
  readonly seconds: number;
  readonly message?: string;
  readonly remedy?: string;
}

/** `/api/work` */
export interface WorkAnswer {
  readonly running: RunningWork | null;
  readonly last: LastWork | null;
}

/** `/api/calibration`: marks beside what happened. */
export interface CalibrationAnswer {
  readonly version: string;
  readonly marks: readonly MarkCalibration[];
}

/** `/api/missing`: what the book lacks. */
export interface MissingAnswer extends MissingData {
  readonly version: string;
}

/** GET `/api/plan`: what starts against a batter are priced with. */
export interface PlanCaseAnswer {
  readonly version: string;
  readonly planCase: PlanCase;
}

/** POST `/api/plan`: the plan, as `leatherbook plan --format json` answers it. */
export interface PlanAnswer {
  readonly version: string;
  readonly plan: Plan;
}

/** `/api/trust`: the last trial on unseen games that this server has made; null before the first. */
export interface TrustAnswer {
  readonly report: (TrustEvidence & { readonly verdict: Verdict; readonly seconds: number }) | null;
  /** Whether the book has changed since. */
  readonly is_old: boolean;
}
