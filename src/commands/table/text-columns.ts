import type { TableName } from './table-query.ts';

const KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'net'];
const withErrors = (names: readonly string[]) => names.flatMap((name) => [name, `${name}_se`]);
const SUMS = withErrors(KINDS.map((kind) => `${kind}_runs`));
const RATINGS = ['reach_rating', 'finish_rating'].flatMap((name) => [name, `${name}_lo80`, `${name}_hi80`]);
const SHARES = ['share_full', 'share_ground', 'share_whole'];

/** Columns that text shows where it does not show all; csv, json and parquet have every one. */
export const TEXT_COLUMNS: Partial<Record<TableName, readonly string[]>> = {
  fielders: ['season', 'fielder_id', 'name', 'position', 'team', 'chances', ...SUMS, ...RATINGS, ...SHARES],
  careers: ['fielder_id', 'name', 'position', 'chances', ...SUMS, ...RATINGS, ...SHARES],
  teams: [
    'season',
    'team',
    'plays',
    ...SUMS,
    'overshift_plays',
    'placement_runs_in_overshift',
    'placement_runs_otherwise',
    ...SHARES,
  ],
  rates: [
    'season',
    'fielder_id',
    'name',
    'position',
    'team',
    'chances',
    ...withErrors(KINDS.filter((kind) => kind !== 'ground').map((kind) => `${kind}_outs_per_100`)),
    'innings',
    ...withErrors(['net_runs_per_1000_innings']),
    ...SHARES,
  ],
  room_to_gain: [
    'season',
    'fielder_id',
    'name',
    'position',
    'team',
    'plays',
    'against',
    'gain_outs',
    'gain_runs',
    'gain_runs_lo80',
    'gain_runs_hi80',
  ],
  reliability: ['position', 'kind', 'method', 'min_chances', 'n', 'men', 'r', 'lo95', 'hi95', 'spearman_brown'],
  half_signal: [
    'position',
    'kind',
    'n',
    'men',
    'signal_sd_per_100',
    'noise_sd_at_100',
    'half_signal_chances',
    'half_signal_chances_lo95',
    'half_signal_chances_hi95',
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

const SUM_HEADINGS = Object.fromEntries(KINDS.map((kind) => [`${kind}_runs`, kind]));

/** Shorter headings for text, by column name, where a note says what the numbers are. */
export const TEXT_HEADINGS: Partial<Record<TableName, Readonly<Record<string, string>>>> = {
  fielders: SUM_HEADINGS,
  careers: SUM_HEADINGS,
  teams: SUM_HEADINGS,
  rates: Object.fromEntries(KINDS.map((kind) => [`${kind}_outs_per_100`, kind])),
};

const SUMS_NOTE = 'Kinds and net in runs, ± one standard error';

/** What one has to know to read a table. */
export const TEXT_NOTES: Partial<Record<TableName, string>> = {
  fielders: `${SUMS_NOTE}; ratings in outs per 100 chances. What happened, not what to expect: compare men with leatherbook compare.\nReach by direction, where the evidence carries it: leatherbook table ratings --part backhand, and in compare.`,
  careers: `${SUMS_NOTE}; ratings, of the last season, in outs per 100 chances.`,
  teams: `${SUMS_NOTE}.`,
  rates:
    'Kinds and net in outs per 100 chances, ± one standard error; sorted by the lower end of an 80 % interval of the net.',
  ratings:
    "Extra outs per 100 average chances of the part, from the season and the two before it. Directions (glove side, backhand, charging in, coming in, going back) stand where the book's men differ in them by more than chance.",
  room_to_gain: 'What even spots would have been worth more than the starts, all else the same. Men first, then clubs.',
  reliability:
    'r: correlation of rates a chance, in odd and even games or in two seasons running, over n pairs of men with min_chances or more; its interval counts men, not pairs. spearman_brown: of a whole season, from its halves.',
  half_signal:
    'half_signal_chances: after so many chances a rate is half signal, half noise. Standard deviations in outs per 100 chances: of what tells men apart, and of chance over 100 chances.',
};

/** Columns whose cells are left blank where they repeat the row above, if those before them do too. */
export const GROUPED_COLUMNS: Partial<Record<TableName, readonly string[]>> = {
  reliability: ['position', 'kind', 'method'],
  half_signal: ['position'],
};

export interface NumberFormat {
  readonly decimals: number;
  /** Written with its sign, because plus and minus are what the column is about. */
  readonly isSigned: boolean;
}

/** How text rounds a double, by column name: the first pattern that matches. */
const FORMATS: readonly (readonly [RegExp, NumberFormat])[] = [
  [/^gain_runs_per_100|_per_1000_innings$/, { decimals: 1, isSigned: true }],
  [/^(placement|reach|finish|turn|net)_outs_per_100$/, { decimals: 1, isSigned: true }],
  [/_per_100/, { decimals: 1, isSigned: false }],
  [/^(rating|ageing|lo50|hi50|lo80|hi80)$|_(lo80|hi80)$/, { decimals: 1, isSigned: true }],
  [/^(outs|runs|logit_shift)$/, { decimals: 3, isSigned: true }],
  [/^(r|lo95|hi95|spearman_brown)$/, { decimals: 2, isSigned: false }],
  [/_sd_/, { decimals: 1, isSigned: false }],
  [/^se$/, { decimals: 3, isSigned: false }],
  [
    /_se$|^(chances|seen_chances|expected_chances|expected_chances_sd|exit_speed_mph|launch_angle_deg|bearing_deg)$|_ft$/,
    { decimals: 1, isSigned: false },
  ],
  [/_outs$|_runs$|_rating|^placement_runs_/, { decimals: 1, isSigned: true }],
  [/_s$|^stake_runs$/, { decimals: 2, isSigned: false }],
  [/^(min_chances|innings|half_signal_chances|runs_scored|runs_rest_of_inning)$/, { decimals: 0, isSigned: false }],
];
const SHARE: NumberFormat = { decimals: 3, isSigned: false };

/** Outs and runs of a season have one decimal; marks, rates, correlations and single entries have three. */
export function formatOf(column: string): NumberFormat {
  if (column === 'stake_runs') return { decimals: 2, isSigned: false };
  return FORMATS.find(([pattern]) => pattern.test(column))?.[1] ?? SHARE;
}

/** Columns that hold a person's id; text puts the name after it. */
export const PERSON_COLUMNS: readonly string[] = ['fielder_id', 'batter_id', 'pitcher_id'];
