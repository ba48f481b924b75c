import { quoteName, quoteText } from '../../book/sql-text.ts';
import type { ColumnType } from '../../book/store.ts';
import { GRADES } from '../../chances/grades.ts';
import { BALL_KINDS } from '../../diamond/play-codes.ts';
import { ExpectedFailure } from '../../expected-failure.ts';
import { ENTRY_KINDS } from '../../ledger/entry-kinds.ts';
import type { RowsQuery } from '../table/table-query.ts';

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
  /** Which entry stands for a play, and the order of plays where no column is asked for. */
  readonly order: PlayOrder;
}

/** Columns of a play of the ledger with its largest entry of those asked for; empty cells for what it has not. */
export const FOUND_PLAY_COLUMNS: ReadonlyMap<string, ColumnType> = new Map([
  ['play_id', 'text'],
  ['season', 'integer'],
  ['date', 'text'],
  ['inning', 'integer'],
  ['fielding_team', 'text'],
  ['batting_team', 'text'],
  ['batter_id', 'text'],
  ['batter', 'text'],
  ['ball_kind', 'text'],
  ['bearing_deg', 'double'],
  ['landing_ft', 'double'],
  ['exit_speed_mph', 'double'],
  ['result', 'text'],
  ['opening', 'double'],
  ['set', 'double'],
  ['gathered', 'double'],
  ['closed', 'double'],
  ['kind', 'text'],
  ['position', 'integer'],
  ['fielder_id', 'text'],
  ['defender', 'text'],
  ['outs', 'double'],
  ['runs', 'double'],
  ['grade', 'text'],
]);

/** Tables that the query reads. */
export const FOUND_PLAYS_TABLES = ['marks', 'plays', 'entries', 'people'] as const;

/** Looks plays of the ledger up. Throws ExpectedFailure of kind `usage` for a word that means nothing. */
export function foundPlaysQuery(question: PlayQuestion): RowsQuery {
  checkWord('kind', question.ballKind, BALL_KINDS);
  checkWord('grade', question.grade, GRADES);
  checkWord('entry', question.entry, ENTRY_KINDS);
  checkWord('order', question.order, PLAY_ORDERS);
  checkSeason(question.season);
  const source = sourceSql(question);
  return {
    countSql: `SELECT count(*) AS n ${source}`,
    rowsSql: (columns, limit, { sort = [], from = 0 } = {}) => {
      const chosen = sort.map(
        ({ column, descending }) => `${quoteName(column)} ${descending ? 'DESC' : 'ASC'} NULLS LAST`,
      );
      return (
        `SELECT ${columns.map(quoteName).join(', ')} FROM (SELECT marks.play_id, marks.season,
          strftime(plays.date, '%Y-%m-%d') AS date, plays.inning, plays.fielding_team, plays.batting_team,
          plays.batter_id, coalesce(batters.name, plays.batter_id) AS batter, marks.ball_kind, plays.bearing_deg,
          sqrt(landing_x_ft * landing_x_ft + landing_y_ft * landing_y_ft) AS landing_ft, plays.exit_speed_mph,
          plays.result, marks.opening, marks.set, marks.gathered, marks.closed, e.kind, e.position, e.fielder_id,
          coalesce(men.name, e.fielder_id) AS defender, e.outs, e.runs, marks.grade, e.weight
        ${source} LEFT JOIN people AS batters ON batters.person_id = plays.batter_id
          LEFT JOIN people AS men ON men.person_id = e.fielder_id)` +
        ` ORDER BY ${[...chosen, ORDERS[question.order]].join(', ')}` +
        (limit === undefined ? '' : ` LIMIT ${limit}`) +
        (from === 0 ? '' : ` OFFSET ${from}`)
      );
    },
  };
}

const BY_WEIGHT = 'weight DESC NULLS LAST, play_id';
const ORDERS: Readonly<Record<PlayOrder, string>> = {
  swing: BY_WEIGHT,
  gain: BY_WEIGHT,
  loss: BY_WEIGHT,
  latest: 'date DESC, play_id DESC',
};

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
  // The conditions stand in a query of their own, so that more can be joined to what they leave.
  return `FROM (SELECT marks.* FROM marks JOIN plays ON plays.play_id = marks.play_id ${where(conditions)}) AS marks
    JOIN plays ON plays.play_id = marks.play_id
    ${entryConditions.length === 0 ? 'LEFT JOIN' : 'JOIN'} (
      SELECT play_id AS entry_play, max_by(fielder_id, w) AS fielder_id, max_by(position, w) AS position,
        max_by(kind, w) AS kind, max_by(outs, w) AS outs, max_by(runs, w) AS runs, max(w) AS weight
      FROM (SELECT *, ${WEIGHTS[order]} AS w FROM entries ${where(entryConditions)}) GROUP BY play_id
    ) AS e ON e.entry_play = marks.play_id`;
}

function checkWord(what: string, word: string | undefined, words: readonly string[]): void {
  if (word === undefined || words.includes(word)) return;
  throw new ExpectedFailure('usage', `There is no ${what} "${word}".`, `Choose one of ${words.join(', ')}.`);
}

function checkSeason(season: number | undefined): void {
  if (season === undefined || (Number.isInteger(season) && season >= 1 && season <= 9999)) return;
  throw new ExpectedFailure(
    'usage',
    `season wants a whole number from 1 to 9999 and got ${season}.`,
    'Correct season.',
  );
}
