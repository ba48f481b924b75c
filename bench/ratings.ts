import { cpus } from 'node:os';
import { rateBook } from '../src/commands/rate-book.ts';
import { sumGames } from '../src/commands/results/game-sums.ts';
import { resultTables } from '../src/commands/results/result-tables.ts';
import { bookFits, scoreBook, selectPlays } from '../src/commands/score-book.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { fitHere } from '../src/models/fitting.ts';
import { SILENT } from '../src/progress.ts';

/**
 * All ratings, standard errors and tables of 30 clubs and three seasons with 1,000 replicates, on a scored demo league, as a build makes
 * them: `npx tsx bench/ratings.ts`. The chance models are those of a smaller league, which saves time and changes none here.
 */
const DRAWS = { draws: 24, window: 'rolling', seed: 1 } as const;
const REPLICATES = 1000;

console.log(`${cpus()[0]?.model} x ${cpus().length}, node ${process.version}`);
const models = fitHere(bookFits(selectPlays(simulateLeague({ seasons: 1, teams: 12, seed: 2 }).plays), 'flat'));
const league = simulateLeague({ seasons: 3, teams: 30, seed: 1, ballsPerSeason: Number(process.argv[2] ?? 120_000) });
const plays = selectPlays(league.plays);
const { personId, name, throws, born } = league.people;
const people = {
  names: new Map(personId.map((id, k) => [id, name[k]!])),
  throws: new Map(personId.map((id, k) => [id, throws[k]!])),
  born: new Map(personId.map((id, k) => [id, born[k]!])),
  fieldTime: new Map<string, number>(),
};
console.log(`${plays.table.count} balls in play`);
const scored = timed('marks and entries', () => scoreBook(plays, models, 'flat', DRAWS, SILENT));
const rated = timed('ratings', () => rateBook(plays, models, scored, people));
timed('sums by game, and weights', () => sumGames(scored.ledgers, REPLICATES, 1));
timed('the same and all tables', () =>
  resultTables(plays.table, models.values, scored, rated, people, { replicates: REPLICATES, seed: 1 }),
);
console.log(`largest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);

/** Prints wall and processor seconds: on a machine that others use the second tells more. */
function timed<T>(what: string, body: () => T): T {
  const started = performance.now();
  const before = process.cpuUsage();
  const result = body();
  const { user, system } = process.cpuUsage(before);
  const wall = ((performance.now() - started) / 1000).toFixed(1);
  console.log(`${what}: ${wall} s by the clock, ${((user + system) / 1e6).toFixed(2)} s of processor`);
  return result;
}
