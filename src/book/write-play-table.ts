import type { PlayTable } from '../chances/play-table.ts';
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
import { isoDateOf } from '../numeric/days.ts';
import type { Book } from './open-book.ts';
import type { Column, ColumnTable } from './store.ts';

/** One person as the contract's `people` has him; used for names, and for running times not recorded with the play. */
export interface PersonRow {
  readonly personId: string;
  readonly name?: string;
  readonly homeToFirstS?: number;
}

const textOf = (name: string, values: (string | null)[]): Column => ({ name, type: 'text', values });
const doubles = (name: string, values: Float64Array): Column => ({ name, type: 'double', values });
const integers = (name: string, values: ArrayLike<number>): Column => ({
  name,
  type: 'integer',
  values: Int32Array.from(values),
});
const named = (name: string, indices: Int32Array, names: readonly string[]): Column =>
  textOf(
    name,
    Array.from(indices, (index) => names[index] ?? null),
  );
/** Words by code; the empty word of an optional list is an empty cell. */
const worded = (name: string, codes: Uint8Array, list: readonly string[]): Column =>
  textOf(
    name,
    Array.from(codes, (code) => list[code] || null),
  );
const runner = (name: string, bases: Uint8Array, bit: number): Column =>
  textOf(
    name,
    Array.from(bases, (bits) => ((bits & bit) === 0 ? null : 'true')),
  );
/** Numbers in which 0 stands for an empty cell. */
const orEmpty = (name: string, values: Uint8Array): Column => ({
  name,
  type: 'integer',
  values: Float64Array.from(values, (value) => (value === 0 ? Number.NaN : value)),
});

function playColumns(plays: PlayTable): ColumnTable {
  const dates = Array.from(plays.date, isoDateOf);
  return {
    rowCount: plays.count,
    columns: [
      textOf('play_id', [...plays.playId]),
      named('game_id', plays.game, plays.games),
      { name: 'date', type: 'date', values: dates },
      integers('season', plays.season),
      named('park', plays.park, plays.parks),
      worded('surface', plays.surface, SURFACES),
      orEmpty('inning', plays.inning),
      integers('outs_before', plays.outsBefore),
      runner('runner_on_1b', plays.bases, ON_FIRST),
      runner('runner_on_2b', plays.bases, ON_SECOND),
      runner('runner_on_3b', plays.bases, ON_THIRD),
      named('batting_team', plays.battingTeam, plays.teams),
      named('fielding_team', plays.fieldingTeam, plays.teams),
      named('batter_id', plays.batter, plays.people),
      worded('batter_side', plays.batterSide, SIDES),
      named('pitcher_id', plays.pitcher, plays.people),
      worded('ball_kind', plays.ballKind, BALL_KINDS),
      doubles('exit_speed_mph', plays.exitSpeedMph),
      doubles('launch_angle_deg', plays.launchAngleDeg),
      doubles('bearing_deg', plays.bearingDeg),
      doubles('landing_x_ft', plays.landingXFt),
      doubles('landing_y_ft', plays.landingYFt),
      doubles('hang_time_s', plays.hangTimeS),
      orEmpty('touched_by', plays.touchedBy),
      orEmpty('gathered_by', plays.gatheredBy),
      doubles('gather_x_ft', plays.gatherXFt),
      doubles('gather_y_ft', plays.gatherYFt),
      doubles('gather_time_s', plays.gatherTimeS),
      worded('throw_to', plays.throwTo, BASES),
      integers('outs_made', plays.outsMade),
      worded('result', plays.result, RESULTS),
      doubles('batter_to_first_s', plays.batterToFirstS),
      doubles('runs_scored', plays.runsScored),
      doubles('runs_rest_of_inning', plays.runsRestOfInning),
      { name: 'gather_seen', type: 'boolean', values: plays.gatherSeen },
    ],
  };
}

function startColumns(plays: PlayTable): ColumnTable {
  const filled = plays.fielder.reduce((sum, person) => sum + (person >= 0 ? 1 : 0), 0);
  const playIds = new Array<string>(filled);
  const fielderIds = new Array<string>(filled);
  const positions = new Int32Array(filled);
  const xFt = new Float64Array(filled);
  const yFt = new Float64Array(filled);
  let row = 0;
  for (let slot = 0; slot < plays.fielder.length; slot++) {
    const person = plays.fielder[slot]!;
    if (person < 0) continue;
    playIds[row] = plays.playId[Math.floor(slot / POSITION_COUNT)]!;
    positions[row] = (slot % POSITION_COUNT) + 1;
    fielderIds[row] = plays.people[person]!;
    xFt[row] = plays.startXFt[slot]!;
    yFt[row] = plays.startYFt[slot]!;
    row += 1;
  }
  return {
    rowCount: filled,
    columns: [
      textOf('play_id', playIds),
      integers('position', positions),
      textOf('fielder_id', fielderIds),
      doubles('start_x_ft', xFt),
      doubles('start_y_ft', yFt),
    ],
  };
}

/**
 * Adds plays, starts and people to a book without the checks of intake: for tests and benches, whose tables are made
 * by the project itself. Reading them back gives the same table, runners' names apart.
 */
export async function writePlayTable(book: Book, plays: PlayTable, people: readonly PersonRow[] = []): Promise<void> {
  await book.store.transaction(async () => {
    await book.store.append('plays', playColumns(plays));
    await book.store.append('starts', startColumns(plays));
    await book.store.append('people', {
      rowCount: people.length,
      columns: [
        textOf(
          'person_id',
          people.map(({ personId }) => personId),
        ),
        textOf(
          'name',
          people.map(({ name }) => name ?? null),
        ),
        doubles(
          'home_to_first_s',
          Float64Array.from(people, ({ homeToFirstS }) => homeToFirstS ?? Number.NaN),
        ),
      ],
    });
  });
}
