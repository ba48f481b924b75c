import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS, BASES, RESULTS, SIDES, SURFACES } from '../../diamond/play-codes.ts';
import { isoDateOf } from '../../numeric/days.ts';
import type { DemoLeague } from '../demo-league.ts';

type Cell = (plays: PlayTable, row: number, league: DemoLeague) => string;

const number = (value: number) => (Number.isNaN(value) ? '' : String(value));
const position = (value: number) => (value === 0 ? '' : String(value));
const runner =
  (base: number): Cell =>
  (plays, row, { truth }) => {
    const who = truth.balls.runners[row * 3 + base - 1]!;
    return who < 0 ? '' : plays.people[who]!;
  };

/** The contract's columns of `plays`, in its order, and where each comes from. */
const PLAY_CELLS: Readonly<Record<string, Cell>> = {
  play_id: (t, k) => t.playId[k]!,
  game_id: (t, k) => t.games[t.game[k]!]!,
  date: (t, k) => isoDateOf(t.date[k]!),
  season: (t, k) => String(t.season[k]),
  park: (t, k) => t.parks[t.park[k]!]!,
  surface: (t, k) => SURFACES[t.surface[k]!]!,
  inning: (t, k) => String(t.inning[k]),
  outs_before: (t, k) => String(t.outsBefore[k]),
  runner_on_1b: runner(1),
  runner_on_2b: runner(2),
  runner_on_3b: runner(3),
  batting_team: (t, k) => t.teams[t.battingTeam[k]!]!,
  fielding_team: (t, k) => t.teams[t.fieldingTeam[k]!]!,
  batter_id: (t, k) => t.people[t.batter[k]!]!,
  batter_side: (t, k) => SIDES[t.batterSide[k]!]!,
  pitcher_id: (t, k) => t.people[t.pitcher[k]!]!,
  ball_kind: (t, k) => BALL_KINDS[t.ballKind[k]!]!,
  exit_speed_mph: (t, k) => number(t.exitSpeedMph[k]!),
  launch_angle_deg: (t, k) => number(t.launchAngleDeg[k]!),
  bearing_deg: (t, k) => number(t.bearingDeg[k]!),
  landing_x_ft: (t, k) => number(t.landingXFt[k]!),
  landing_y_ft: (t, k) => number(t.landingYFt[k]!),
  hang_time_s: (t, k) => number(t.hangTimeS[k]!),
  touched_by: (t, k) => position(t.touchedBy[k]!),
  gathered_by: (t, k) => position(t.gatheredBy[k]!),
  gather_x_ft: (t, k) => number(t.gatherXFt[k]!),
  gather_y_ft: (t, k) => number(t.gatherYFt[k]!),
  gather_time_s: (t, k) => number(t.gatherTimeS[k]!),
  throw_to: (t, k) => BASES[t.throwTo[k]!]!,
  outs_made: (t, k) => String(t.outsMade[k]),
  result: (t, k) => RESULTS[t.result[k]!]!,
  batter_to_first_s: (t, k) => number(t.batterToFirstS[k]!),
  runs_scored: (t, k) => number(t.runsScored[k]!),
  runs_rest_of_inning: (t, k) => number(t.runsRestOfInning[k]!),
  gather_seen: (t, k) => (t.gatherSeen[k] === 1 ? 'true' : 'false'),
};

export const PLAY_COLUMNS = Object.keys(PLAY_CELLS);
export const START_COLUMNS = ['play_id', 'position', 'fielder_id', 'start_x_ft', 'start_y_ft'];

/** Rows [first, end) of the plays as CSV lines under a header. */
export function* playLines(league: DemoLeague, first: number, end: number): Generator<string> {
  const cells = Object.values(PLAY_CELLS);
  yield PLAY_COLUMNS.join(',');
  for (let row = first; row < end; row += 1) yield cells.map((cell) => cell(league.plays, row, league)).join(',');
}

/** The starts of rows [first, end), nine lines a play. */
export function* startLines({ plays }: DemoLeague, first: number, end: number): Generator<string> {
  yield START_COLUMNS.join(',');
  for (let row = first; row < end; row += 1) {
    for (let p = 1; p <= 9; p += 1) {
      const at = row * 9 + p - 1;
      const spot = `${number(plays.startXFt[at]!)},${number(plays.startYFt[at]!)}`;
      yield `${plays.playId[row]},${p},${plays.people[plays.fielder[at]!]},${spot}`;
    }
  }
}
