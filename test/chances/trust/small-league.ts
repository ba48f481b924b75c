import { type Grounders, selectGrounders } from '../../../src/chances/grounders.ts';
import { simulateLeague } from '../../../src/league/simulate-league.ts';

/** A league small enough to fit many times. */
export function smallGrounders(balls = 2200): Grounders {
  return selectGrounders(simulateLeague({ seasons: 1, teams: 4, seed: 5, ballsPerSeason: balls }).plays);
}
