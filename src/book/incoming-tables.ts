import { BALL_KINDS, BASES, RESULTS, SIDES, SURFACES } from '../diamond/play-codes.ts';
import type { ColumnType } from './store.ts';

/** One column of a table that comes in, and what makes sense in it (data-contract.md). */
export interface IncomingColumn {
  readonly name: string;
  readonly type: ColumnType;
  readonly required: boolean;
  /** The words allowed in a text column. */
  readonly words?: readonly string[];
  /** Range of a number, ends included. */
  readonly min?: number;
  readonly max?: number;
}

export interface IncomingTable {
  readonly columns: readonly IncomingColumn[];
  /** The columns that together name a row. */
  readonly key: readonly string[];
}

export type IncomingTableName = 'plays' | 'starts' | 'people' | 'field_time';

/**
 * A start must lie within this distance of home and not more than this far behind it; the ranges of the single
 * coordinates below are only the square around that.
 */
export const START_LIMITS = { fromHomeFt: 450, behindHomeFt: 60 } as const;

type Limits = Pick<IncomingColumn, 'words' | 'min' | 'max'>;

const required = (name: string, type: ColumnType, limits: Limits = {}): IncomingColumn => ({
  name,
  type,
  required: true,
  ...limits,
});
const optional = (name: string, type: ColumnType, limits: Limits = {}): IncomingColumn => ({
  name,
  type,
  required: false,
  ...limits,
});
const range = (min: number, max: number): Limits => ({ min, max });
const words = (list: readonly string[]): Limits => ({ words: list.filter((word) => word !== '') });

const SEASON = range(1850, 2200);
const POSITION = range(1, 9);
const HOME_TO_FIRST_S = range(3, 7);
// A ball may be caught or picked up in foul ground and in front of any fence there is.
const ACROSS_FT = range(-600, 600);
const OUT_FT = range(-150, 600);

export const INCOMING_TABLES: Record<IncomingTableName, IncomingTable> = {
  plays: {
    key: ['play_id'],
    columns: [
      required('play_id', 'text'),
      required('game_id', 'text'),
      required('date', 'date'),
      optional('season', 'integer', SEASON),
      optional('park', 'text'),
      optional('surface', 'text', words(SURFACES)),
      optional('inning', 'integer', range(1, 40)),
      required('outs_before', 'integer', range(0, 2)),
      // A person id, or true, false: no list of words.
      optional('runner_on_1b', 'text'),
      optional('runner_on_2b', 'text'),
      optional('runner_on_3b', 'text'),
      required('batting_team', 'text'),
      required('fielding_team', 'text'),
      required('batter_id', 'text'),
      required('batter_side', 'text', words(SIDES)),
      optional('pitcher_id', 'text'),
      required('ball_kind', 'text', words(BALL_KINDS)),
      optional('exit_speed_mph', 'double', range(0, 130)),
      optional('launch_angle_deg', 'double', range(-90, 90)),
      optional('bearing_deg', 'double', range(-180, 180)),
      optional('landing_x_ft', 'double', ACROSS_FT),
      optional('landing_y_ft', 'double', OUT_FT),
      optional('hang_time_s', 'double', range(0, 12)),
      optional('touched_by', 'integer', POSITION),
      optional('gathered_by', 'integer', POSITION),
      optional('gather_x_ft', 'double', ACROSS_FT),
      optional('gather_y_ft', 'double', OUT_FT),
      optional('gather_time_s', 'double', range(0, 20)),
      optional('throw_to', 'text', words(BASES)),
      required('outs_made', 'integer', range(0, 3)),
      required('result', 'text', words(RESULTS)),
      optional('batter_to_first_s', 'double', HOME_TO_FIRST_S),
      optional('runs_scored', 'double', range(0, 4)),
      optional('runs_rest_of_inning', 'double', range(0, 60)),
      // Added to the contract: false where nobody recorded who gathered, so that only the result is known.
      optional('gather_seen', 'boolean'),
    ],
  },
  starts: {
    key: ['play_id', 'position'],
    columns: [
      required('play_id', 'text'),
      required('position', 'integer', POSITION),
      required('fielder_id', 'text'),
      optional('start_x_ft', 'double', range(-START_LIMITS.fromHomeFt, START_LIMITS.fromHomeFt)),
      optional('start_y_ft', 'double', range(-START_LIMITS.behindHomeFt, START_LIMITS.fromHomeFt)),
    ],
  },
  people: {
    key: ['person_id'],
    columns: [
      required('person_id', 'text'),
      optional('name', 'text'),
      // S: a switch batter.
      optional('bats', 'text', { words: ['L', 'R', 'S'] }),
      optional('throws', 'text', words(SIDES)),
      optional('home_to_first_s', 'double', HOME_TO_FIRST_S),
      optional('born', 'date'),
    ],
  },
  field_time: {
    key: ['season', 'team', 'fielder_id', 'position'],
    columns: [
      required('season', 'integer', SEASON),
      required('team', 'text'),
      required('fielder_id', 'text'),
      required('position', 'integer', POSITION),
      required('outs_played', 'integer', range(0, 10_000)),
    ],
  },
};
