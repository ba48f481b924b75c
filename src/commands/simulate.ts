import { writeLeague } from '../league/files/write-league.ts';
import { simulateLeague } from '../league/simulate-league.ts';
import type { Progress } from '../progress.ts';

export interface SimulateOptions {
  /** Folder to write into; made when it is not there. */
  readonly out: string;
  readonly seasons: number;
  readonly teams: number;
  readonly seed: number;
  /** Balls in play a season; default 25,000. */
  readonly ballsPerSeason?: number;
}

export interface SimulateReport {
  readonly out: string;
  /** Names within `out`. */
  readonly files: readonly string[];
  readonly plays: number;
}

/**
 * Writes the demo league as files a book can take in, and its truth apart.
 * @throws ExpectedFailure when an option is out of range (usage), the folder cannot be written (usage), the disk is full (data).
 */
export async function simulate(options: SimulateOptions, effects: { progress: Progress }): Promise<SimulateReport> {
  const { out, ...league } = options;
  const demo = simulateLeague(league, effects.progress);
  const files = await writeLeague(out, demo, league, effects.progress);
  return { out, files, plays: demo.plays.count };
}
