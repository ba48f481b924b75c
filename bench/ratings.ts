import { cpus } from 'node:os';
import { rateAndTabulate } from '../src/commands/rate-and-tabulate.ts';
import { bookFits, scoreBook, selectPlays } from '../src/commands/score-book.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { fitHere } from '../src/models/fitting.ts';
import { SILENT } from '../src/progress.ts';

/**
 * All ratings, standard errors and tables of 30 clubs and three seasons with 1,000 replicates, on a scored demo league, as a build makes
 * them, on two threads and on one: `npx tsx bench/ratings.ts [BALLS A SEASON]`. The chance models are those of a smaller league, which
 * saves time and changes none here.
 */
const DRAWS = { draws: 24, window: 'rolling', seed: 1 } as const;
const BOOTSTRAP = { replicates: 1000, seed: 1 };

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
const scored = await timed('marks and entries', () => scoreBook(plays, models, 'flat', DRAWS, SILENT));
for (const threads of [2, 1]) {
  await timed(`ratings, standard errors and all tables, threads ${threads}`, () =>
    rateAndTabulate(plays, models, scored, people, BOOTSTRAP, threads),
  );
}
console.log(`largest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);

/** Prints wall and processor seconds: on a machine that others use the second tells more. */
async function timed<T>(what: string, body: () => T | Promise<T>): Promise<T> {
  const started = performance.now();
  const before = process.cpuUsage();
  const result = await body();
  const { user, system } = process.cpuUsage(before);
  const wall = ((performance.now() - started) / 1000).toFixed(1);
  console.log(`${what}: ${wall} s by the clock, ${((user + system) / 1e6).toFixed(2)} s of processor`);
  return result;
}
