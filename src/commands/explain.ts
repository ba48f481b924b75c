import { openBook } from '../book/open-book.ts';
import { readNames, readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import { quoteText } from '../book/sql-text.ts';
import type { Cell, Store } from '../book/store.ts';
import { chooseEvenDraws } from '../chances/even-draws.ts';
import { GRADES, type Grade } from '../chances/grades.ts';
import { type Grounders, selectGrounders } from '../chances/grounders.ts';
import { BASES, RESULTS, SIDES } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { type DefenderView, dissectPlay } from '../ledger/dissect-play.ts';
import type { Progress } from '../progress.ts';
import { BUILD_FILE, unpackBuild } from './build-file.ts';

export interface ExplainOptions {
  readonly book: string;
  readonly playId: string;
}

export interface ExplainEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

export interface ExplainedDefender extends DefenderView {
  readonly fielderId: string | null;
  readonly name: string | null;
}

export interface ExplainedEntry {
  readonly position: number;
  readonly name: string | null;
  readonly kind: string;
  readonly outs: number;
  readonly runs: number;
}

/** A play whose placement the opening mark averaged over. */
export interface Lender {
  readonly playId: string;
  readonly date: string;
  readonly team: string;
  readonly bearingDeg: number;
}

/** One play's story in numbers; NaN where the data say nothing. */
export interface Explanation {
  readonly playId: string;
  readonly date: string;
  readonly inning: number;
  readonly outsBefore: number;
  /** Occupied bases as bits: 1 first, 2 second, 4 third. */
  readonly bases: number;
  readonly battingTeam: string;
  readonly fieldingTeam: string;
  readonly batter: string;
  readonly batterSide: string;
  readonly exitSpeedMph: number;
  readonly bearingDeg: number;
  readonly launchAngleDeg: number;
  readonly batterToFirstS: number;
  readonly result: string;
  readonly grade: Grade;
  readonly flags: string;
  readonly marks: {
    readonly opening: number;
    readonly openingDirect: number;
    readonly set: number;
    readonly gathered: number;
    readonly closed: number;
    readonly stakeRuns: number;
  };
  readonly opening: { readonly low: number; readonly high: number; readonly lenders: readonly Lender[] };
  /** In the order in which the ball came to them; empty below grade `full`. */
  readonly defenders: readonly ExplainedDefender[];
  readonly gather: {
    readonly position: number;
    readonly name: string | null;
    readonly xFt: number;
    readonly yFt: number;
    readonly timeS: number;
    readonly target: string;
    readonly targetRecorded: boolean;
    readonly timeLeftS: number;
    readonly throwFt: number;
  } | null;
  readonly touchedBy: number;
  readonly entries: readonly ExplainedEntry[];
}

/** Tells where every number of one play came from. */
export async function explain(options: ExplainOptions, effects: ExplainEffects): Promise<Explanation> {
  const book = await openBook(options.book, { access: 'read', command: 'explain', now: effects.now });
  try {
    const marks = await readMarks(book.store, options);
    const build = unpackBuild(await readModelFile(book, BUILD_FILE));
    const grounders = selectGrounders(await readPlayTable(book));
    const names = await readNames(book);
    const at = findPlay(grounders, options.playId);
    const draws = chooseEvenDraws(grounders, build.draws);
    const gradeCode = GRADES.indexOf(marks.grade);
    const group = build.groups.find(({ season, grade }) => season === grounders.season[at] && grade === gradeCode);
    if (group === undefined) throw new Error(`no balance group for play ${options.playId}`);
    const view = dissectPlay(grounders, build.models, draws, group, at);
    const { table } = grounders;
    const row = grounders.row[at];
    const person = (index: number) => (index < 0 ? null : table.people[index]);
    const nameOf = (id: string | null) => (id === null ? null : (names.get(id) ?? id));
    const fielderAt = (position: number) => person(table.fielder[row * 9 + position - 1]);
    const gatherer = table.gatheredBy[row];
    return {
      playId: options.playId,
      date: isoDate(table.date[row]),
      inning: table.inning[row],
      outsBefore: table.outsBefore[row],
      bases: table.bases[row],
      battingTeam: table.teams[table.battingTeam[row]],
      fieldingTeam: table.teams[table.fieldingTeam[row]],
      batter: nameOf(person(table.batter[row])) ?? '',
      batterSide: SIDES[table.batterSide[row]],
      exitSpeedMph: table.exitSpeedMph[row],
      bearingDeg: table.bearingDeg[row],
      launchAngleDeg: table.launchAngleDeg[row],
      batterToFirstS: grounders.batterToFirstS[at],
      result: RESULTS[table.result[row]],
      grade: marks.grade,
      flags: marks.flags,
      marks: marks.numbers,
      opening: {
        low: view.openingLow,
        high: view.openingHigh,
        lenders: view.lenders.map((lender) => describeLender(grounders, lender)),
      },
      defenders: view.defenders.map((defender) => {
        const fielderId = fielderAt(defender.position);
        return { ...defender, fielderId, name: nameOf(fielderId) };
      }),
      gather:
        view.finish === null
          ? null
          : {
              position: gatherer,
              name: nameOf(fielderAt(gatherer)),
              xFt: table.gatherXFt[row],
              yFt: table.gatherYFt[row],
              timeS: table.gatherTimeS[row],
              target: BASES[view.finish.target],
              targetRecorded: view.finish.targetRecorded,
              timeLeftS: view.finish.timeLeftS,
              throwFt: view.finish.throwFt,
            },
      touchedBy: table.touchedBy[row],
      entries: await readEntries(book.store, options.playId, nameOf),
    };
  } finally {
    await book.close();
  }
}

interface StoredMarks {
  readonly grade: Grade;
  readonly flags: string;
  readonly numbers: Explanation['marks'];
}

async function readMarks(store: Store, { book, playId }: ExplainOptions): Promise<StoredMarks> {
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
  if (play.ball_kind !== 'ground') {
    return new ExpectedFailure(
      'data',
      `Play ${playId} is of kind ${play.ball_kind}; only grounders are in the ledger so far.`,
      'Choose a grounder from table marks.',
    );
  }
  return new ExpectedFailure(
    'data',
    `Play ${playId} has no marks yet.`,
    `Build the book first: leatherbook build --book ${book}`,
  );
}

async function readEntries(
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

function findPlay(grounders: Grounders, playId: string): number {
  for (let at = 0; at < grounders.count; at += 1) if (grounders.table.playId[grounders.row[at]] === playId) return at;
  throw new Error(`play ${playId} has marks and is not among the grounders`);
}

function describeLender(grounders: Grounders, lender: number): Lender {
  const { table } = grounders;
  const row = grounders.row[lender];
  return {
    playId: table.playId[row],
    date: isoDate(table.date[row]),
    team: table.teams[table.fieldingTeam[row]],
    bearingDeg: table.bearingDeg[row],
  };
}

const MS_PER_DAY = 86_400_000;

function isoDate(days: number): string {
  return new Date(days * MS_PER_DAY).toISOString().slice(0, 10);
}
