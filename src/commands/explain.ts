import { openBook } from '../book/open-book.ts';
import { readNames, readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import { quoteText } from '../book/sql-text.ts';
import type { Cell, Store } from '../book/store.ts';
import { AirChances, MOVABLE_IN_THE_AIR } from '../chances/air/air-chances.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import { chooseEvenDraws } from '../chances/even-draws.ts';
import { type FinishView, viewFinish } from '../chances/finish-model.ts';
import { GRADES, type Grade, WHOLE } from '../chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../chances/grounder-chances.ts';
import { BALL_KINDS, BASES, RESULTS, SIDES } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { dissectPlay } from '../ledger/dissect-play.ts';
import type { DefenderView } from '../ledger/view-defenders.ts';
import { isoDateOf } from '../numeric/days.ts';
import type { Progress } from '../progress.ts';
import { type BuildFile, unpackBuild } from './build-file.ts';
import { type BookPlays, selectPlays } from './score-book.ts';

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
  readonly ballKind: string;
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
    const build = await unpackBuild((name) => readModelFile(book, name));
    const names = await readNames(book);
    const { plays, chances, movable, finishOf, at } = findPlay(
      selectPlays(await readPlayTable(book)),
      build,
      options.playId,
    );
    const draws = chooseEvenDraws(plays, build.draws);
    const view = dissectPlay(plays, chances, movable, draws, shiftsOf(build, plays, marks.grade, at), at);
    const finish = marks.grade === GRADES[WHOLE] ? null : finishOf(at);
    const { table } = plays;
    const row = plays.row[at];
    const person = (index: number) => (index < 0 ? null : table.people[index]);
    const nameOf = (id: string | null) => (id === null ? null : (names.get(id) ?? id));
    const fielderAt = (position: number) => person(table.fielder[row * 9 + position - 1]);
    const gatherer = table.gatheredBy[row];
    return {
      playId: options.playId,
      ballKind: BALL_KINDS[table.ballKind[row]],
      date: isoDateOf(table.date[row]),
      inning: table.inning[row],
      outsBefore: table.outsBefore[row],
      bases: table.bases[row],
      battingTeam: table.teams[table.battingTeam[row]],
      fieldingTeam: table.teams[table.fieldingTeam[row]],
      batter: nameOf(person(table.batter[row])) ?? '',
      batterSide: SIDES[table.batterSide[row]],
      exitSpeedMph: table.exitSpeedMph[row],
      bearingDeg: plays.bearingDeg[at],
      launchAngleDeg: table.launchAngleDeg[row],
      batterToFirstS: table.batterToFirstS[row],
      result: RESULTS[table.result[row]],
      grade: marks.grade,
      flags: marks.flags,
      marks: marks.numbers,
      opening: {
        low: view.openingLow,
        high: view.openingHigh,
        lenders: view.lenders.map((lender) => describeLender(plays, lender)),
      },
      defenders: view.defenders.map((defender) => {
        const fielderId = fielderAt(defender.position);
        return { ...defender, fielderId, name: nameOf(fielderId) };
      }),
      gather:
        finish === null
          ? null
          : {
              position: gatherer,
              name: nameOf(fielderAt(gatherer)),
              xFt: table.gatherXFt[row],
              yFt: table.gatherYFt[row],
              timeS: table.gatherTimeS[row],
              target: BASES[finish.target],
              targetRecorded: finish.targetRecorded,
              timeLeftS: finish.timeLeftS,
              throwFt: finish.throwFt,
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

/** A play among those of its class, with what its class is scored by. */
interface FoundPlay {
  readonly plays: ClassPlays;
  readonly chances: DefenderChances;
  readonly movable: readonly number[];
  /** What the gathered mark rests on; null when nobody gathered, and for a catch, which is an out. */
  finishOf(at: number): FinishView | null;
  readonly at: number;
}

function findPlay({ grounders, air }: BookPlays, { models }: BuildFile, playId: string): FoundPlay {
  const numberIn = (plays: ClassPlays) => plays.row.findIndex((row) => plays.table.playId[row] === playId);
  const grounder = numberIn(grounders);
  if (grounder >= 0 && models.grounders !== null) {
    const { finish } = models.grounders;
    return {
      plays: grounders,
      chances: new GrounderChances(grounders, models.grounders),
      movable: MOVABLE_ON_GROUNDERS,
      finishOf: (at) => (grounders.table.gatheredBy[grounders.row[at]] > 0 ? viewFinish(finish, grounders, at) : null),
      at: grounder,
    };
  }
  const ball = numberIn(air);
  if (ball >= 0 && models.air !== null) {
    const chances = new AirChances(air, models.air);
    return { plays: air, chances, movable: MOVABLE_IN_THE_AIR, finishOf: () => null, at: ball };
  }
  throw new Error(`play ${playId} has marks and no models`);
}

function shiftsOf(build: BuildFile, plays: ClassPlays, grade: Grade, at: number) {
  const gradeCode = GRADES.indexOf(grade);
  const kind = plays.table.ballKind[plays.row[at]];
  const group = build.groups.find(
    (each) => each.season === plays.season[at] && each.kind === kind && each.grade === gradeCode,
  );
  if (group === undefined) throw new Error(`no balance group for play ${plays.table.playId[plays.row[at]]}`);
  return group;
}

function describeLender(plays: ClassPlays, lender: number): Lender {
  const { table } = plays;
  const row = plays.row[lender];
  return {
    playId: table.playId[row],
    date: isoDateOf(table.date[row]),
    team: table.teams[table.fieldingTeam[row]],
    bearingDeg: plays.bearingDeg[lender],
  };
}
