import { GRADES, type Grade } from '../chances/grades.ts';
import type { ColumnType } from './store.ts';

export interface OutgoingColumn {
  readonly name: string;
  readonly type: ColumnType;
}

export interface OutgoingTable {
  /** `build` replaces its tables as a whole; `intake` adds to its own; `plan` replaces a plan by its id. */
  readonly writtenBy: 'build' | 'intake' | 'plan';
  readonly columns: readonly OutgoingColumn[];
}

export type OutgoingTableName =
  | 'marks'
  | 'entries'
  | 'fielders'
  | 'careers'
  | 'teams'
  | 'rates'
  | 'alignments'
  | 'reliability'
  | 'half_signal'
  | 'room_to_gain'
  | 'game_chances'
  | 'balance'
  | 'run_table'
  | 'run_values'
  | 'ratings'
  | 'team_placement'
  | 'next_season'
  | 'plans'
  | 'plan_starts'
  | 'intake_log'
  | 'set_aside';

/** The kinds of entry that a defender's or a team's row has its sums of, and the net of all. */
const SUMMED = ['placement', 'reach', 'finish', 'turn', 'ground', 'net'] as const;

const text = (...names: string[]): OutgoingColumn[] => names.map((name) => ({ name, type: 'text' }));
const integers = (...names: string[]): OutgoingColumn[] => names.map((name) => ({ name, type: 'integer' }));
const doubles = (...names: string[]): OutgoingColumn[] => names.map((name) => ({ name, type: 'double' }));
const sums = (ending: string): OutgoingColumn[] => doubles(...SUMMED.map((kind) => `${kind}_${ending}`));
const SUMS: readonly OutgoingColumn[] = [...sums('outs'), ...sums('runs'), ...sums('runs_se')];

/** Intervals of a rating. */
const INTERVALS = ['lo50', 'hi50', 'lo80', 'hi80', 'lo95', 'hi95'] as const;

/** The shares of the grades of a row's plays (method.md 9). */
const shares = (...grades: readonly Grade[]): OutgoingColumn[] => doubles(...grades.map((grade) => `share_${grade}`));

/** A man's sums and ratings. */
const MEN: readonly OutgoingColumn[] = [
  ...integers('season'),
  ...text('fielder_id', 'name'),
  ...integers('position'),
  ...text('team'),
  ...integers('plays'),
  ...doubles('chances', 'share_full'),
  ...SUMS,
  ...doubles('reach_rating', 'reach_rating_lo80', 'reach_rating_hi80'),
  ...doubles('finish_rating', 'finish_rating_lo80', 'finish_rating_hi80'),
  ...shares('ground', 'whole'),
];

const RATED = ['placement', 'reach', 'finish', 'turn'] as const;
const withErrors = (names: readonly string[]) => doubles(...names.flatMap((name) => [name, `${name}_se`]));

/**
 * The tables that go out: the columns of the data contract in its order, then what this project added since
 * (docs/decisions/022-shares-in-every-table.md).
 */
export const OUTGOING_TABLES: Record<OutgoingTableName, OutgoingTable> = {
  marks: {
    writtenBy: 'build',
    columns: [
      ...text('play_id'),
      ...integers('season'),
      ...text('ball_kind'),
      ...doubles('opening', 'opening_direct', 'set', 'gathered', 'closed', 'stake_runs'),
      ...text('grade', 'flags'),
    ],
  },
  entries: {
    writtenBy: 'build',
    columns: [
      ...text('play_id'),
      ...integers('season'),
      ...text('fielder_id'),
      ...integers('position'),
      ...text('team', 'kind'),
      ...doubles('outs', 'runs'),
      ...text('grade'),
    ],
  },
  fielders: { writtenBy: 'build', columns: MEN },
  // One row a defender and position; season and team are empty.
  careers: { writtenBy: 'build', columns: MEN },
  teams: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('team'),
      ...integers('plays'),
      ...SUMS,
      ...integers('overshift_plays'),
      ...doubles('placement_runs_in_overshift', 'placement_runs_otherwise'),
      ...shares(...GRADES),
    ],
  },
  rates: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('fielder_id', 'name'),
      ...integers('position'),
      ...text('team'),
      ...integers('plays'),
      ...doubles('chances', 'innings'),
      ...withErrors([...RATED, 'net'].map((kind) => `${kind}_outs_per_100`)),
      ...withErrors(SUMMED.map((kind) => `${kind}_runs_per_1000_innings`)),
      ...shares(...GRADES),
    ],
  },
  alignments: {
    writtenBy: 'build',
    columns: [
      ...text('play_id', 'name'),
      ...integers('right_side_infielders'),
      { name: 'legal_two_a_side', type: 'boolean' },
      // Why it is not, or cannot be judged; empty for a legal infield.
      ...text('reason'),
    ],
  },
  reliability: {
    writtenBy: 'build',
    columns: [
      ...text('kind'),
      ...integers('position'),
      ...text('method'),
      ...doubles('min_chances'),
      ...integers('n'),
      ...doubles('r', 'lo95', 'hi95', 'spearman_brown'),
      ...integers('men'),
    ],
  },
  half_signal: {
    writtenBy: 'build',
    columns: [
      ...text('kind'),
      ...integers('position', 'n', 'men'),
      ...doubles('signal_sd_per_100', 'noise_sd_at_100'),
      ...doubles('half_signal_chances', 'half_signal_chances_lo95', 'half_signal_chances_hi95'),
    ],
  },
  room_to_gain: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('fielder_id', 'name'),
      ...integers('position'),
      ...text('team'),
      ...integers('plays'),
      ...text('against'),
      ...doubles('gain_outs', 'gain_runs', 'gain_runs_se', 'gain_runs_lo80', 'gain_runs_hi80'),
    ],
  },
  game_chances: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('game_id', 'fielder_id'),
      ...integers('position'),
      ...text('team'),
      ...integers('plays', 'plays_full'),
      ...doubles('chances'),
    ],
  },
  balance: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('ball_class', 'mark_or_kind'),
      ...doubles('total_outs', 'total_runs', 'logit_shift'),
      ...integers('plays'),
      ...shares(...GRADES),
    ],
  },
  run_table: {
    writtenBy: 'build',
    columns: [
      ...text('state', 'runners'),
      ...integers('outs'),
      ...doubles('runs', 'se'),
      ...integers('innings'),
      ...text('source'),
    ],
  },
  run_values: {
    writtenBy: 'build',
    columns: [...text('ball', 'event', 'state', 'runners'), ...integers('outs'), ...doubles('runs')],
  },
  ratings: {
    writtenBy: 'build',
    columns: [
      ...integers('season', 'from_season'),
      ...text('fielder_id'),
      ...integers('position'),
      ...text('kind', 'part'),
      ...integers('tries'),
      ...doubles('chances'),
      ...integers('made'),
      ...doubles('rating', ...INTERVALS, 'shift', 'shift_sd', 'spread'),
    ],
  },
  team_placement: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('team', 'batter_side'),
      ...integers('plays'),
      ...doubles('placement_outs', 'placement_rating', ...INTERVALS, 'spread'),
    ],
  },
  next_season: {
    writtenBy: 'build',
    columns: [
      ...integers('season'),
      ...text('fielder_id'),
      ...integers('position'),
      ...doubles('seen_chances', 'rating', 'rating_lo80', 'rating_hi80', 'ageing', 'expected_chances'),
      ...doubles('expected_chances_sd', 'expected_outs', 'expected_outs_lo80', 'expected_outs_hi80'),
      ...doubles('expected_runs', 'expected_runs_lo80', 'expected_runs_hi80'),
    ],
  },
  plans: {
    writtenBy: 'plan',
    columns: [
      ...text('plan_id', 'batter_id', 'side', 'defence'),
      ...integers('outs'),
      ...text('runners', 'rule'),
      ...integers('balls'),
      ...doubles('outs_per_100_plan', 'outs_per_100_even', 'outs_per_100_own'),
      ...doubles('runs_per_100_plan', 'runs_per_100_even', 'runs_per_100_own'),
      ...doubles('gain_runs_per_100', 'gain_runs_per_100_lo80', 'gain_runs_per_100_hi80'),
      ...text('warnings', 'settings', 'build_id'),
    ],
  },
  plan_starts: {
    writtenBy: 'plan',
    columns: [
      ...text('plan_id'),
      ...integers('position'),
      ...text('fielder_id'),
      ...doubles('start_x_ft', 'start_y_ft', 'even_x_ft', 'even_y_ft', 'own_x_ft', 'own_y_ft'),
      ...doubles('error_ft', 'error_runs_per_100'),
    ],
  },
  intake_log: {
    writtenBy: 'intake',
    columns: [...text('file', 'table'), ...integers('read', 'loaded', 'set_aside')],
  },
  set_aside: {
    writtenBy: 'intake',
    columns: [...text('file'), ...integers('line'), ...text('table', 'column', 'reason', 'text')],
  },
};
