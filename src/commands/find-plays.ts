import { quoteText } from '../book/sql-text.ts';
import type { Cell, Store } from '../book/store.ts';
import { GRADES } from '../chances/grades.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { ENTRY_KINDS } from '../ledger/entry-kinds.ts';

/** Orders of a list of plays: the largest entry either way, the largest gain, the largest loss, the latest. */
export const PLAY_ORDERS = ['swing', 'gain', 'loss', 'latest'] as const;
export type PlayOrder = (typeof PLAY_ORDERS)[number];

/** What plays are looked for; what is left out does not matter. */
export interface PlayQuestion {
  readonly season?: number | undefined;
  /** The club in the field. */
  readonly team?: string | undefined;
  /** A man with an entry on the play, by his id: the entry shown is then his. */
  readonly defender?: string | undefined;
  readonly batter?: string | undefined;
  readonly ballKind?: string | undefined;
  readonly grade?: string | undefined;
  /** Kind of the entry that is shown and ordered by; any unless given. */
  readonly entry?: string | undefined;
  /** `closed`: with an out, without one. */
  readonly out?: boolean | undefined;
  readonly order: PlayOrder;
  readonly from: number;
  readonly count: number;
}

/** A play of the ledger with its largest entry of those asked for; null for what it has not. */
export interface FoundPlay {
  readonly playId: string;
  readonly date: string;
  readonly inning: number | null;
  readonly ballKind: string;
  readonly bearingDeg: number | null;
  /** How far from home it came down, feet. */
  readonly landingFt: number | null;
  readonly exitSpeedMph: number | null;
  readonly battingTeam: string;
  readonly fieldingTeam: string;
  readonly batterId: string;
  readonly result: string;
  readonly grade: string;
  readonly opening: number;
  readonly set: number | null;
  readonly gathered: number | null;
  readonly closed: number;
  readonly entry: {
    readonly fielderId: string | null;
    readonly position: number;
    readonly kind: string;
    readonly outs: number;
    readonly runs: number;
  } | null;
}

export interface FoundPlays {
  /** All that match, of which `plays` are a window. */
  readonly playCount: number;
  readonly plays: readonly FoundPlay[];
}

export const MOST_PLAYS = 500;

/** Tables that findPlays reads. */
export const FIND_PLAYS_TABLES = ['marks', 'plays', 'entries'] as const;

/** Looks plays of the ledger up. Throws ExpectedFailure of kind `usage` for a word that means nothing. */
export async function findPlays(store: Store, question: PlayQuestion): Promise<FoundPlays> {
  checkWord('kind', question.ballKind, BALL_KINDS);
  checkWord('grade', question.grade, GRADES);
  checkWord('entry', question.entry, ENTRY_KINDS);
  checkWord('order', question.order, PLAY_ORDERS);
  checkWhole('season', question.season ?? 1, 1, 9999);
  checkWhole('from', question.from, 0, 1e9);
  checkWhole('count', question.count, 1, MOST_PLAYS);
  const [counted] = await store.rows(`SELECT count(*) AS n ${sourceSql(question)}`);
  const rows = await store.rows(
    `SELECT marks.*, plays.*, e.*, strftime(plays.date, '%Y-%m-%d') AS day,
       sqrt(landing_x_ft * landing_x_ft + landing_y_ft * landing_y_ft) AS landing_ft ${sourceSql(question)}
     ORDER BY ${orderSql(question.order)} LIMIT ${question.count} OFFSET ${question.from}`,
  );
  return { playCount: Number(counted?.n), plays: rows.map(describe) };
}

/** How large an entry counts in each order; the largest of a play stands for it. */
const WEIGHTS: Readonly<Record<PlayOrder, string>> = {
  swing: 'abs(outs)',
  gain: 'outs',
  loss: '-outs',
  latest: 'abs(outs)',
};

function sourceSql({ season, team, defender, batter, ballKind, grade, entry, out, order }: PlayQuestion): string {
  const entryConditions = [
    defender === undefined ? [] : [`fielder_id = ${quoteText(defender)}`],
    entry === undefined ? [] : [`kind = ${quoteText(entry)}`],
  ].flat();
  const conditions = [
    season === undefined ? [] : [`marks.season = ${season}`],
    team === undefined ? [] : [`plays.fielding_team = ${quoteText(team)}`],
    batter === undefined ? [] : [`plays.batter_id = ${quoteText(batter)}`],
    ballKind === undefined ? [] : [`marks.ball_kind = ${quoteText(ballKind)}`],
    grade === undefined ? [] : [`marks.grade = ${quoteText(grade)}`],
    out === undefined ? [] : [`marks.closed = ${out ? 1 : 0}`],
  ].flat();
  const where = (list: readonly string[]) => (list.length === 0 ? '' : `WHERE ${list.join(' AND ')}`);
  return `FROM marks JOIN plays ON plays.play_id = marks.play_id
    ${entryConditions.length === 0 ? 'LEFT JOIN' : 'JOIN'} (
      SELECT play_id AS entry_play, max_by(fielder_id, w) AS fielder_id, max_by(position, w) AS position,
        max_by(kind, w) AS kind, max_by(outs, w) AS outs, max_by(runs, w) AS runs, max(w) AS weight
      FROM (SELECT *, ${WEIGHTS[order]} AS w FROM entries ${where(entryConditions)}) GROUP BY play_id
    ) AS e ON e.entry_play = marks.play_id ${where(conditions)}`;
}

function orderSql(order: PlayOrder): string {
  return order === 'latest' ? 'plays.date DESC, marks.play_id DESC' : 'e.weight DESC NULLS LAST, marks.play_id';
}

function describe(row: Record<string, Cell>): FoundPlay {
  const number = (cell: Cell | undefined) =>
    cell === null || cell === undefined || Number.isNaN(Number(cell)) ? null : Number(cell);
  const text = (cell: Cell | undefined) => (cell === null || cell === undefined ? '' : String(cell));
  return {
    playId: text(row.play_id),
    date: text(row.day),
    inning: number(row.inning),
    ballKind: text(row.ball_kind),
    bearingDeg: number(row.bearing_deg),
    landingFt: number(row.landing_ft),
    exitSpeedMph: number(row.exit_speed_mph),
    battingTeam: text(row.batting_team),
    fieldingTeam: text(row.fielding_team),
    batterId: text(row.batter_id),
    result: text(row.result),
    grade: text(row.grade),
    opening: Number(row.opening),
    set: number(row.set),
    gathered: number(row.gathered),
    closed: Number(row.closed),
    entry:
      row.kind === null
        ? null
        : {
            fielderId: row.fielder_id === null ? null : text(row.fielder_id),
            position: Number(row.position),
            kind: text(row.kind),
            outs: Number(row.outs),
            runs: Number(row.runs),
          },
  };
}

function checkWord(what: string, word: string | undefined, words: readonly string[]): void {
  if (word === undefined || words.includes(word)) return;
  throw new ExpectedFailure('usage', `There is no ${what} "${word}".`, `Choose one of ${words.join(', ')}.`);
}

function checkWhole(what: string, value: number, low: number, high: number): void {
  if (Number.isInteger(value) && value >= low && value <= high) return;
  throw new ExpectedFailure(
    'usage',
    `${what} wants a whole number from ${low} to ${high} and got ${value}.`,
    `Correct ${what}.`,
  );
}
