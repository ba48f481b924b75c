import { quoteName, quoteText } from '../../book/sql-text.ts';
import type { ColumnType, Store } from '../../book/store.ts';
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

const PLAY_COLUMNS = [
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
  ['grade', 'text'],
] as const satisfies readonly (readonly [string, ColumnType])[];
const ENTRY_COLUMNS = [
  ['kind', 'text'],
  ['position', 'integer'],
  ['fielder_id', 'text'],
  ['defender', 'text'],
  ['outs', 'double'],
  ['runs', 'double'],
] as const satisfies readonly (readonly [string, ColumnType])[];

/** Columns of a play of the ledger with its largest entry of those asked for; empty cells for what it has not. */
export const FOUND_PLAY_COLUMNS: ReadonlyMap<string, ColumnType> = new Map([...PLAY_COLUMNS, ...ENTRY_COLUMNS]);

/** Tables that prepareFoundPlays reads. */
export const FOUND_PLAYS_TABLES = ['marks', 'plays', 'entries', 'people'] as const;

/** How large an entry counts in each order; the largest of a play stands for it. */
const WEIGHTS = { swing: 'abs(outs)', gain: 'outs', loss: '-outs' } as const;
const weightOf = (order: PlayOrder): keyof typeof WEIGHTS => (order === 'latest' ? 'swing' : order);

/**
 * Makes the tables `found_plays` and `found_entries` that the query reads, in a store of one's own. Plays and entries are
 * numbered, because joining them by their names at every question takes several times as long.
 */
export async function prepareFoundPlays(store: Store): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE numbered_plays AS
    SELECT (row_number() OVER (ORDER BY marks.play_id))::INTEGER AS play_no, marks.play_id, marks.season,
      strftime(plays.date, '%Y-%m-%d') AS date, plays.inning, plays.fielding_team, plays.batting_team, plays.batter_id,
      coalesce(people.name, plays.batter_id) AS batter, marks.ball_kind, plays.bearing_deg,
      sqrt(landing_x_ft * landing_x_ft + landing_y_ft * landing_y_ft) AS landing_ft, plays.exit_speed_mph, plays.result,
      marks.opening, marks.set, marks.gathered, marks.closed, marks.grade
    FROM marks JOIN plays USING (play_id) LEFT JOIN people ON people.person_id = plays.batter_id`);
  await store.run(`CREATE OR REPLACE TABLE found_entries AS
    SELECT (row_number() OVER ())::INTEGER AS entry_no, play_no, kind, position, fielder_id,
      coalesce(people.name, fielder_id) AS defender, outs, runs
    FROM entries JOIN numbered_plays USING (play_id) LEFT JOIN people ON people.person_id = fielder_id`);
  const best = Object.entries(WEIGHTS).map(
    ([order, weight]) => `max_by(entry_no, ${weight}) AS ${order}_entry, max(${weight}) AS ${order}_weight`,
  );
  await store.run(`CREATE OR REPLACE TABLE found_plays AS
    SELECT * FROM numbered_plays LEFT JOIN (SELECT play_no, ${best.join(', ')} FROM found_entries GROUP BY play_no) USING (play_no)`);
  await store.run('DROP TABLE numbered_plays');
}

/**
 * Looks plays of the ledger up in what prepareFoundPlays made.
 * @throws ExpectedFailure of kind `usage` for a word that means nothing
 */
export function foundPlaysQuery(question: PlayQuestion): RowsQuery {
  checkWord('kind', question.ballKind, BALL_KINDS);
  checkWord('grade', question.grade, GRADES);
  checkWord('entry', question.entry, ENTRY_KINDS);
  checkWord('order', question.order, PLAY_ORDERS);
  checkSeason(question.season);
  const { plays, entries } = conditionsOf(question);
  const by = weightOf(question.order);
  // Which entry stands for a play is known beforehand, unless only some entries count.
  const [entryNo, weight, entryJoin] =
    entries.length === 0
      ? [`f.${by}_entry`, `f.${by}_weight`, '']
      : [
          'e.entry_no',
          'e.weight',
          `JOIN (SELECT play_no, max_by(entry_no, ${WEIGHTS[by]}) AS entry_no, max(${WEIGHTS[by]}) AS weight
             FROM found_entries ${whereOf(entries)} GROUP BY play_no) AS e USING (play_no)`,
        ];
  const withEntries =
    entries.length === 0 ? [] : [`f.play_no IN (SELECT play_no FROM found_entries ${whereOf(entries)})`];
  return {
    countSql: `SELECT count(*) AS n FROM found_plays AS f ${whereOf([...plays, ...withEntries])}`,
    rowsSql: (columns, limit, { sort = [], from = 0 } = {}) => {
      const chosen = sort.map(
        ({ column, descending }) => `${qualified(column)} ${descending ? 'DESC' : 'ASC'} NULLS LAST`,
      );
      const order = [...chosen, ORDERS[question.order]].join(', ');
      const entryToo = sort.some(({ column }) => isOfEntry(column))
        ? `LEFT JOIN found_entries AS x ON x.entry_no = ${entryNo}`
        : '';
      // First which rows, then what stands in them: a sort that carries all columns takes several times as long.
      return `WITH found AS (
          SELECT f.play_no, ${entryNo} AS entry_no, ${weight} AS weight
          FROM found_plays AS f ${entryJoin} ${entryToo} ${whereOf(plays)} ORDER BY ${order}
          ${limit === undefined ? '' : `LIMIT ${limit}`} ${from === 0 ? '' : `OFFSET ${from}`}
        )
        SELECT ${columns.map(qualified).join(', ')} FROM found JOIN found_plays AS f USING (play_no)
          LEFT JOIN found_entries AS x ON x.entry_no = found.entry_no ORDER BY ${order}`;
    },
  };
}

const BY_WEIGHT = 'weight DESC NULLS LAST, f.play_no';
const ORDERS: Readonly<Record<PlayOrder, string>> = {
  swing: BY_WEIGHT,
  gain: BY_WEIGHT,
  loss: BY_WEIGHT,
  latest: 'f.date DESC, f.play_no DESC',
};

const isOfEntry = (column: string) => ENTRY_COLUMNS.some(([name]) => name === column);
const qualified = (column: string) => `${isOfEntry(column) ? 'x' : 'f'}.${quoteName(column)}`;
const whereOf = (conditions: readonly string[]) => (conditions.length === 0 ? '' : `WHERE ${conditions.join(' AND ')}`);

function conditionsOf({ season, team, defender, batter, ballKind, grade, entry, out }: PlayQuestion) {
  const equal = (column: string, value: string | undefined) =>
    value === undefined ? [] : [`${column} = ${quoteText(value)}`];
  return {
    plays: [
      season === undefined ? [] : [`f.season = ${season}`],
      equal('f.fielding_team', team),
      equal('f.batter_id', batter),
      equal('f.ball_kind', ballKind),
      equal('f.grade', grade),
      out === undefined ? [] : [`f.closed = ${out ? 1 : 0}`],
    ].flat(),
    entries: [...equal('fielder_id', defender), ...equal('kind', entry)],
  };
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
