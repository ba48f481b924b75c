import { allocatePlayTable, type PlayTable, type PlayTableDraft } from '../chances/play-table.ts';
import {
  BALL_KINDS,
  BASES,
  ON_FIRST,
  ON_SECOND,
  ON_THIRD,
  POSITION_COUNT,
  RESULTS,
  SIDES,
  SURFACES,
} from '../diamond/play-codes.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Book } from './open-book.ts';
import { quoteText } from './sql-text.ts';
import type { ColumnTable } from './store.ts';

/** Everything below counts in this order: the rows of the table, and the names by their bytes. */
const PLAY_ORDER = 'coalesce(season, year(date)), play_id';

/** Sorted distinct names of some columns, each with its number from 0. */
function numbered(sources: readonly string[]): string {
  const union = sources.map((source) => `SELECT DISTINCT ${source}`).join(' UNION ');
  return `SELECT name, CAST(row_number() OVER (ORDER BY name) - 1 AS INTEGER) AS number
    FROM (${union}) AS names(name) WHERE name IS NOT NULL`;
}

const GAMES = numbered(['game_id FROM plays']);
const PARKS = numbered(['park FROM plays']);
const TEAMS = numbered(['batting_team FROM plays', 'fielding_team FROM plays']);
const PEOPLE = numbered(['batter_id FROM plays', 'pitcher_id FROM plays', 'fielder_id FROM starts']);

/** Code of a word: its index in the list; -1 for a word that is not in it, 0 for an empty cell of an optional column. */
function codeOf(column: string, list: readonly string[], isRequired: boolean): string {
  const index = `CAST(coalesce(list_position([${list.map(quoteText).join(', ')}], ${column}), 0) - 1 AS INTEGER)`;
  return isRequired ? index : `CASE WHEN ${column} IS NULL THEN 0 ELSE ${index} END`;
}

/** A base is taken by a person or by `true`. */
const taken = (column: string, bit: number) =>
  `CASE WHEN ${column} IS NULL OR lower(trim(${column})) IN ('', 'false') THEN 0 ELSE ${bit} END`;

/** Integer columns as SQL, by the name of the draft's column. */
const INTEGER_COLUMNS: Record<string, string> = {
  game: 'games.number',
  season: 'coalesce(season, year(date))::INTEGER',
  date: `date_diff('day', DATE '1970-01-01', date)::INTEGER`,
  park: 'coalesce(parks.number, -1)',
  surface: codeOf('surface', SURFACES, false),
  inning: 'coalesce(inning, 0)',
  outsBefore: 'outs_before',
  bases: `${taken('runner_on_1b', ON_FIRST)} + ${taken('runner_on_2b', ON_SECOND)} + ${taken('runner_on_3b', ON_THIRD)}`,
  battingTeam: 'batting.number',
  fieldingTeam: 'fielding.number',
  batter: 'batters.number',
  pitcher: 'coalesce(pitchers.number, -1)',
  batterSide: codeOf('batter_side', SIDES, true),
  ballKind: codeOf('ball_kind', BALL_KINDS, true),
  touchedBy: 'coalesce(touched_by, 0)',
  gatheredBy: 'coalesce(gathered_by, 0)',
  throwTo: codeOf('throw_to', BASES, false),
  outsMade: 'outs_made',
  result: codeOf('result', RESULTS, true),
  // Somebody must have had the ball for an out: where nobody is named, nobody recorded it.
  gatherSeen: 'CAST(coalesce(gather_seen, NOT (outs_made > 0 AND gathered_by IS NULL)) AS INTEGER)',
};

const DOUBLE_COLUMNS: Record<string, string> = {
  exitSpeedMph: 'exit_speed_mph',
  launchAngleDeg: 'launch_angle_deg',
  bearingDeg: 'bearing_deg',
  landingXFt: 'landing_x_ft',
  landingYFt: 'landing_y_ft',
  hangTimeS: 'hang_time_s',
  gatherXFt: 'gather_x_ft',
  gatherYFt: 'gather_y_ft',
  gatherTimeS: 'gather_time_s',
  batterToFirstS: 'coalesce(batter_to_first_s, runners.home_to_first_s)',
  runsScored: 'runs_scored',
  runsRestOfInning: 'runs_rest_of_inning',
};

const COLUMNS = { ...INTEGER_COLUMNS, ...DOUBLE_COLUMNS };

const PLAYS_SQL = `
WITH games AS (${GAMES}), parks AS (${PARKS}), teams AS (${TEAMS}), people_numbers AS MATERIALIZED (${PEOPLE}),
  runners AS (SELECT person_id, min(home_to_first_s) AS home_to_first_s FROM people GROUP BY person_id)
SELECT play_id AS "playId", ${Object.entries(COLUMNS)
  .map(([name, sql]) => `${sql} AS "${name}"`)
  .join(', ')}
FROM plays
  JOIN games ON games.name = game_id
  LEFT JOIN parks ON parks.name = park
  JOIN teams AS batting ON batting.name = batting_team
  JOIN teams AS fielding ON fielding.name = fielding_team
  JOIN people_numbers AS batters ON batters.name = batter_id
  LEFT JOIN people_numbers AS pitchers ON pitchers.name = pitcher_id
  LEFT JOIN runners ON runners.person_id = batter_id
ORDER BY ${PLAY_ORDER}`;

/** No order is needed: each row says the slot that it fills. */
const STARTS_SQL = `
WITH play_numbers AS (SELECT play_id, row_number() OVER (ORDER BY ${PLAY_ORDER}) - 1 AS number FROM plays),
  people_numbers AS (${PEOPLE})
SELECT CAST(play_numbers.number * ${POSITION_COUNT} + position - 1 AS INTEGER) AS slot,
  people_numbers.number AS fielder, start_x_ft, start_y_ft
FROM starts
  JOIN play_numbers USING (play_id)
  JOIN people_numbers ON people_numbers.name = fielder_id
WHERE position BETWEEN 1 AND ${POSITION_COUNT}`;

const CODED: Record<string, string> = {
  batterSide: 'batter_side',
  ballKind: 'ball_kind',
  result: 'result',
  surface: 'surface',
  throwTo: 'throw_to',
};

async function readNamesOf(book: Book, numberedSql: string): Promise<string[]> {
  const { columns } = await book.store.query(`SELECT name FROM (${numberedSql}) ORDER BY number`);
  return columns[0]!.values as string[];
}

function fillPlays(draft: PlayTableDraft, { columns }: ColumnTable): void {
  for (const { name, values } of columns) {
    const column = draft[name as keyof PlayTableDraft];
    if (name === 'playId') {
      draft.playId = values as string[];
      continue;
    }
    if (name in CODED) {
      const row = (values as Int32Array).indexOf(-1);
      if (row >= 0) {
        const unit = `play ${draft.playId[row]}, column ${CODED[name]}`;
        throw new ExpectedFailure(
          'book',
          `The book holds a word that the contract does not have (${unit}).`,
          'Something other than intake wrote into the book: make a new one with intake and build.',
        );
      }
    }
    (column as Int32Array | Uint8Array | Float64Array).set(values as Float64Array | Int32Array);
  }
}

function fillStarts(draft: PlayTableDraft, { rowCount, columns }: ColumnTable): void {
  const [slots, fielders, xFt, yFt] = columns.map(({ values }) => values as Float64Array | Int32Array);
  for (let row = 0; row < rowCount; row++) {
    const slot = slots![row]!;
    draft.fielder[slot] = fielders![row]!;
    draft.startXFt[slot] = xFt![row]!;
    draft.startYFt[slot] = yFt![row]!;
  }
}

/**
 * All plays of a book in canonical order (season, then play id by its bytes), with their starts. What it returns does
 * not depend on the order in which rows were written. Names are numbered in the order of their bytes.
 * @throws ExpectedFailure of kind `book` when the book holds words that intake lets nobody write
 */
export async function readPlayTable(book: Book): Promise<PlayTable> {
  const plays = await book.store.query(PLAYS_SQL);
  const draft = allocatePlayTable(plays.rowCount);
  fillPlays(draft, plays);
  fillStarts(draft, await book.store.query(STARTS_SQL));
  draft.games = await readNamesOf(book, GAMES);
  draft.parks = await readNamesOf(book, PARKS);
  draft.teams = await readNamesOf(book, TEAMS);
  draft.people = await readNamesOf(book, PEOPLE);
  return draft;
}

/** Names by person id, for those who have one. */
export async function readNames(book: Book): Promise<Map<string, string>> {
  const { columns } = await book.store.query(
    'SELECT person_id, min(name) AS name FROM people WHERE name IS NOT NULL GROUP BY person_id ORDER BY person_id',
  );
  const names = columns[1]!.values as readonly string[];
  return new Map((columns[0]!.values as readonly string[]).map((id, index) => [id, names[index]!]));
}
