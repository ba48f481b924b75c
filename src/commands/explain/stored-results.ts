import { quoteText } from '../../book/sql-text.ts';
import type { Cell, Store } from '../../book/store.ts';
import type { Grade } from '../../chances/grades.ts';
import { ExpectedFailure } from '../../expected-failure.ts';
import type { ExplainedEntry, Explanation } from './explanation.ts';

/** Tables that the functions here read. */
export const STORY_TABLES = ['marks', 'entries', 'plays'] as const;

/** What the book says of a play's marks. */
export interface StoredMarks {
  readonly grade: Grade;
  readonly flags: string;
  readonly numbers: Explanation['marks'];
}

/** @throws ExpectedFailure of kind `data` for a play without marks; `book` is what the user calls the book */
export async function readStoredMarks(store: Store, book: string, playId: string): Promise<StoredMarks> {
  const [row] = await store.rows(`SELECT * FROM marks WHERE play_id = ${quoteText(playId)}`);
  if (row === undefined) throw await whyNotMarked(store, book, playId);
  const number = (cell: Cell) => (cell === null ? Number.NaN : Number(cell));
  return {
    grade: row.grade as Grade,
    flags: String(row.flags ?? ''),
    numbers: {
      opening: number(row.opening),
      openingDirect: number(row.opening_direct),
      set: number(row.set),
      gathered: number(row.gathered),
      closed: number(row.closed),
      stakeRuns: number(row.stake_runs),
    },
  };
}

async function whyNotMarked(store: Store, book: string, playId: string): Promise<ExpectedFailure> {
  const [play] = await store.rows(`SELECT ball_kind FROM plays WHERE play_id = ${quoteText(playId)}`);
  if (play === undefined) {
    return new ExpectedFailure(
      'data',
      `The book ${book} holds no play ${playId}.`,
      `Look the play up with: leatherbook table plays --book ${book}; a row that was set aside is in table set_aside.`,
    );
  }
  if (play.ball_kind === 'bunt') {
    return new ExpectedFailure(
      'data',
      `Play ${playId} is a bunt; bunts are counted and kept out of the ledger.`,
      'Choose a play from table marks.',
    );
  }
  return new ExpectedFailure(
    'data',
    `Play ${playId} has no marks yet.`,
    `Build the book first: leatherbook build --book ${book}`,
  );
}

export async function readStoredEntries(
  store: Store,
  playId: string,
  nameOf: (id: string | null) => string | null,
): Promise<ExplainedEntry[]> {
  const rows = await store.rows(
    `SELECT position, fielder_id, kind, outs, runs FROM entries WHERE play_id = ${quoteText(playId)} ORDER BY position, kind`,
  );
  return rows.map((row) => ({
    position: Number(row.position),
    name: nameOf(row.fielder_id === null ? null : String(row.fielder_id)),
    kind: String(row.kind),
    outs: Number(row.outs),
    runs: Number(row.runs),
  }));
}
