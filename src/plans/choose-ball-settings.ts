import { foldOfGame } from '../chances/fold-of-game.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { compareDensities, leagueDensity } from './ball-density.ts';
import { type BallSettings, fitBatterBalls, type LeagueSide, pickBalls } from './batter-balls.ts';
import type { SeenBalls } from './seen-balls.ts';

/** A man's balls among the seen balls, and the league that he is drawn toward. */
export interface OneBatter {
  readonly league: LeagueSide;
  readonly numbers: readonly number[];
}

/** Log density of held-out balls, each model's mean over them and their number. */
export interface HeldOutScore {
  readonly balls: number;
  readonly league: number;
  readonly own: number;
  readonly drawn: number;
}

const FOLDS = 3;

interface Fold {
  readonly league: LeagueSide;
  readonly train: readonly number[];
  readonly test: SeenBalls;
  readonly leagueDensity: Float64Array;
}

/** Held-out log density over games: each batter's games are dealt into folds by their ids, and each fold asked of the others. */
export class HeldOutBalls {
  private readonly table: PlayTable;
  private readonly folds: Fold[] = [];

  constructor(table: PlayTable, balls: SeenBalls, batters: readonly OneBatter[]) {
    this.table = table;
    for (const { league, numbers } of batters) {
      const foldOf = (k: number) => foldOfGame(table.games[table.game[balls.row[k]]], FOLDS);
      for (let fold = 0; fold < FOLDS; fold += 1) {
        const asked = numbers.filter((k) => foldOf(k) === fold && isWhole(balls, k));
        if (asked.length === 0) continue;
        const test = pickBalls(balls, asked);
        const train = numbers.filter((k) => foldOf(k) !== fold);
        this.folds.push({ league, train, test, leagueDensity: leagueDensity(league, test) });
      }
    }
  }

  /** `floor` keeps a ball that a kernel thinks impossible from deciding everything: each density is mixed with this much league. */
  score(settings: BallSettings, floor = 0.001): HeldOutScore {
    const sums = { league: 0, own: 0, drawn: 0 };
    let balls = 0;
    for (const { league, train, test, leagueDensity: ofLeague } of this.folds) {
      const lastDay = train.reduce((last, k) => Math.max(last, this.table.date[league.balls.row[k]]), 0);
      const batter = fitBatterBalls(this.table, league, train, lastDay, settings);
      const found = compareDensities(batter, test, ofLeague);
      for (let k = 0; k < test.count; k += 1) {
        const log = (density: number) => Math.log(Math.max((1 - floor) * density + floor * ofLeague[k], 1e-12));
        sums.league += log(found.league[k]);
        sums.own += log(found.own[k]);
        sums.drawn += log(found.drawn[k]);
      }
      balls += test.count;
    }
    return { balls, league: sums.league / balls, own: sums.own / balls, drawn: sums.drawn / balls };
  }
}

function isWhole(balls: SeenBalls, k: number): boolean {
  return !Number.isNaN(balls.exitSpeedMph[k] + balls.launchAngleDeg[k]);
}

/** What was chosen on the demo league (decision 060); where a search begins. */
export const BALL_SETTINGS: BallSettings = {
  leagueWeight: 1000,
  precision: 30,
  pitcherPrecision: 100,
  bandwidth: 1,
  halfLifeDays: Number.POSITIVE_INFINITY,
};

/** Values that are tried, each setting in turn with the others held. */
const TRIED = {
  precision: [5, 10, 20, 40, 80, 160, 320],
  leagueWeight: [30, 100, 300, 1000, 3000, 10_000],
  bandwidth: [0.4, 0.6, 0.8, 1, 1.3],
  halfLifeDays: [180, 365, 730, Number.POSITIVE_INFINITY],
} as const;

/** The settings under which held-out balls are likeliest, found one setting at a time, twice round. */
export function chooseBallSettings(
  heldOut: HeldOutBalls,
  from: BallSettings = BALL_SETTINGS,
  rounds = 2,
): BallSettings {
  let best = from;
  let likeliest = heldOut.score(best).drawn;
  for (let round = 0; round < rounds; round += 1) {
    for (const name of Object.keys(TRIED) as (keyof typeof TRIED)[]) {
      for (const value of TRIED[name]) {
        const tried = { ...best, [name]: value };
        const { drawn } = heldOut.score(tried);
        if (drawn > likeliest) {
          likeliest = drawn;
          best = tried;
        }
      }
    }
  }
  return best;
}
