import type { PlayTable } from '../../chances/play-table.ts';
import { BASE_OUT_STATES, baseOutName } from './base-out.ts';
import { completeRuns } from './complete-runs.ts';
import { LINDSEY_1963_RUNS } from './lindsey-1963.ts';
import { clusteredErrors, meanAtPlays } from './mean-at-plays.ts';
import { type PlaySequence, sequencePlays } from './play-sequence.ts';
import { type TurnShares, unseenTurns } from './unseen-turns.ts';

/** Half innings in which every state must have been seen: with 50 its standard error is about 0.2 run at most. */
export const FEWEST_INNINGS = 50;

/** A league puts about two turns at bat in three in play; a book with fewer than this share lacks whole kinds of balls. */
const LEAST_IN_PLAY = 0.5;

export interface RunTableOptions {
  /** Default 50. */
  readonly fewestInnings?: number;
  /** sequencePlays(plays), where the caller has it already. */
  readonly sequence?: PlaySequence;
}

/** Expected runs to the end of the half inning. Columns are by base-out state, outs * 8 + bases. */
export interface RunTable {
  readonly source: 'book' | 'Lindsey 1963';
  /** Why this source, in a sentence. */
  readonly reason: string;
  /** Runs, of the source. */
  readonly runs: Float64Array;
  /** Of `runs`, clustered by half inning, given the turn shares; NaN for the published table. */
  readonly standardError: Float64Array;
  /** Half innings of the book, 1 to 8, with a play that began in the state. */
  readonly innings: Float64Array;
  /** Plays of the book, of all innings, that began in the state: how often the state occurs to a ball in play. */
  readonly plays: Float64Array;
  /** Mean of runs_rest_of_inning over the plays that began in the state, innings 1 to 8; NaN without any. */
  readonly meanAtPlays: Float64Array;
  /** What was inferred of the turns at bat that are not in the book. */
  readonly turns: TurnShares;
}

/**
 * The run table of a book (method.md 8). A book holds balls in play only, so the mean over the plays that began in a state is not
 * what the state is worth: it is the mean given that the batter put the ball in play, without his strikeouts, walks and
 * home runs. On the demo league that mean is 0.02 to 0.03 too low with the bases empty or a man on first alone, and up to 0.15
 * too high with men in scoring position and fewer than two outs. The missing turns show in the gaps between plays
 * (`unseenTurns`), and `completeRuns` puts them back: no state is then two standard errors from the mean over all turns at bat of
 * twelve demo seasons (decision 020).
 *
 * When a state was seen in fewer than `fewestInnings` half innings, or less than half of all turns at bat are in the book
 * (grounders alone, say), the whole table is Lindsey's of 1963: one source a table, since values are differences of states.
 */
export function runTable(plays: PlayTable, options: RunTableOptions = {}): RunTable {
  const fewest = options.fewestInnings ?? FEWEST_INNINGS;
  const sequence = options.sequence ?? sequencePlays(plays);
  const means = meanAtPlays(sequence);
  const turns = unseenTurns(sequence);
  const seen = { innings: means.innings, plays: countStates(plays), meanAtPlays: means.mean, turns };
  const rarest = means.innings.reduce((least, n, state, all) => (n < all[least] ? state : least), 0);
  const lack = whatIsLacking(sequence.count, rarest, means.innings[rarest], fewest, turns);
  if (lack !== null) {
    return {
      source: 'Lindsey 1963',
      reason: lack,
      runs: Float64Array.from(LINDSEY_1963_RUNS),
      standardError: new Float64Array(BASE_OUT_STATES).fill(Number.NaN),
      ...seen,
    };
  }
  const { constant, weights } = completeRuns(turns);
  const runs = constant.map((value, state) => {
    let sum = value;
    for (let k = 0; k < BASE_OUT_STATES; k += 1) sum += weights[state * BASE_OUT_STATES + k] * means.mean[k];
    return sum;
  });
  return {
    source: 'book',
    reason: `Every base-out state was seen in ${fewest} half innings or more; the rarest, ${baseOutName(rarest)}, in ${means.innings[rarest]}.`,
    runs,
    standardError: clusteredErrors(sequence, means, weights),
    ...seen,
  };
}

/** Why a book cannot have a table of its own, or null. */
function whatIsLacking(
  usable: number,
  rarest: number,
  innings: number,
  fewest: number,
  turns: TurnShares,
): string | null {
  if (usable === 0) return 'No play of innings 1 to 8 has runs_scored and runs_rest_of_inning and men who add up.';
  if (!(innings >= Math.max(fewest, 1)))
    return `The state ${baseOutName(rarest)} was seen in ${innings} half innings of the book; ${fewest} are needed.`;
  if (turns.inPlay < LEAST_IN_PLAY)
    return `Only ${Math.round(100 * turns.inPlay)} % of the turns at bat after a play are in the book: it does not hold all balls in play.`;
  return null;
}

function countStates(plays: PlayTable): Float64Array {
  const counts = new Float64Array(BASE_OUT_STATES);
  for (let row = 0; row < plays.count; row += 1) counts[plays.outsBefore[row] * 8 + plays.bases[row]] += 1;
  return counts;
}
