import type { TableName } from './table-query.ts';

/** Columns that text shows where it does not show all; csv, json and parquet have every one. */
export const TEXT_COLUMNS: Partial<Record<TableName, readonly string[]>> = {
  fielders: [
    'season',
    'fielder_id',
    'name',
    'position',
    'team',
    'plays',
    'chances',
    'share_full',
    'share_ground',
    'share_whole',
    'placement_outs',
    'reach_outs',
    'finish_outs',
    'turn_outs',
    'ground_outs',
    'net_outs',
    'net_runs',
    'reach_rating',
    'reach_rating_lo80',
    'reach_rating_hi80',
    'finish_rating',
    'finish_rating_lo80',
    'finish_rating_hi80',
  ],
  teams: [
    'season',
    'team',
    'plays',
    'placement_outs',
    'reach_outs',
    'finish_outs',
    'turn_outs',
    'ground_outs',
    'net_outs',
    'net_runs',
    'overshift_plays',
    'placement_runs_in_overshift',
    'placement_runs_otherwise',
    'share_full',
    'share_ground',
    'share_whole',
  ],
  ratings: [
    'season',
    'fielder_id',
    'position',
    'kind',
    'part',
    'tries',
    'chances',
    'made',
    'rating',
    'lo80',
    'hi80',
    'spread',
  ],
  plans: [
    'batter_id',
    'side',
    'defence',
    'outs',
    'runners',
    'rule',
    'balls',
    'gain_runs_per_100',
    'gain_runs_per_100_lo80',
    'gain_runs_per_100_hi80',
    'build_id',
  ],
  team_placement: [
    'season',
    'team',
    'batter_side',
    'plays',
    'placement_outs',
    'placement_rating',
    'lo80',
    'hi80',
    'spread',
  ],
  plays: [
    'play_id',
    'date',
    'inning',
    'outs_before',
    'batting_team',
    'fielding_team',
    'batter_id',
    'batter_side',
    'ball_kind',
    'exit_speed_mph',
    'launch_angle_deg',
    'bearing_deg',
    'gathered_by',
    'gather_time_s',
    'outs_made',
    'result',
  ],
};

export interface NumberFormat {
  readonly decimals: number;
  /** Written with its sign, because plus and minus are what the column is about. */
  readonly isSigned: boolean;
}

/** How text rounds a double, by column name: the first pattern that matches. */
const FORMATS: readonly (readonly [RegExp, NumberFormat])[] = [
  [/^gain_runs_per_100/, { decimals: 1, isSigned: true }],
  [/_per_100/, { decimals: 1, isSigned: false }],
  [/^(rating|ageing|lo50|hi50|lo80|hi80)$|_(lo80|hi80)$/, { decimals: 1, isSigned: true }],
  [/^(outs|runs|logit_shift)$/, { decimals: 3, isSigned: true }],
  [/^se$/, { decimals: 3, isSigned: false }],
  [
    /_se$|^(chances|seen_chances|expected_chances|expected_chances_sd|exit_speed_mph|launch_angle_deg|bearing_deg)$|_ft$/,
    { decimals: 1, isSigned: false },
  ],
  [/_outs$|_runs$|_rating|^placement_runs_/, { decimals: 1, isSigned: true }],
  [/_s$|^stake_runs$/, { decimals: 2, isSigned: false }],
  [/^(min_chances|runs_scored|runs_rest_of_inning)$/, { decimals: 0, isSigned: false }],
];
const SHARE: NumberFormat = { decimals: 3, isSigned: false };

/** Outs and runs of a season have one decimal; marks, rates, correlations and single entries have three. */
export function formatOf(column: string): NumberFormat {
  if (column === 'stake_runs') return { decimals: 2, isSigned: false };
  return FORMATS.find(([pattern]) => pattern.test(column))?.[1] ?? SHARE;
}

/** Columns that hold a person's id; text puts the name after it. */
export const PERSON_COLUMNS: readonly string[] = ['fielder_id', 'batter_id', 'pitcher_id'];
