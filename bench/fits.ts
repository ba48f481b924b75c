/**
 * All fits of a build of the default demo league: on one thread, on as many as the machine runs at once, and begun where the first ended
 * (docs/decisions/012-where-a-fit-begins.md). `npx tsx bench/fits.ts`.
 */
import { availableParallelism } from 'node:os';
import { beginningAt, nameFits } from '../src/chances/fit-choices.ts';
import { listRatingFits } from '../src/chances/rating-models.ts';
import { fitOnThreads } from '../src/commands/fits/fit-on-threads.ts';
import { bookFits, type FittedModels, listBookFits, selectPlays } from '../src/commands/score-book.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { SILENT } from '../src/progress.ts';

const plays = selectPlays(simulateLeague({ seasons: 3, teams: 12, seed: 1 }).plays);

/** Models of other games keep some fits of the book's own. */
function everyFit(models: FittedModels) {
  const otherGames = models.forRatings.finishOnOtherGames.flatMap(({ infield }) => infield.flat());
  return [...new Set([...listBookFits(models), ...otherGames, ...listRatingFits(models.forRatings)])];
}

async function timed(name: string, threads: number, choices = {}): Promise<FittedModels> {
  const began = performance.now();
  const before = process.cpuUsage();
  const models = await fitOnThreads(bookFits(plays, 'neutral', choices), threads, SILENT);
  const { user, system } = process.cpuUsage(before);
  const fits = everyFit(models);
  const passes = fits.reduce((sum, { record }) => sum + record.iterations, 0);
  console.log(
    `${name}: ${fits.length} fits, ${passes} passes, ${((user + system) / 1e6).toFixed(1)} s of processor, ${((performance.now() - began) / 1000).toFixed(1)} s by the clock`,
  );
  return models;
}

const first = await timed('one thread', 1);
const threads = availableParallelism();
const again = await timed(`${threads} threads, starting them included`, threads);
const same = (a: FittedModels, b: FittedModels) =>
  everyFit(a).every((fit, k) => {
    const other = everyFit(b)[k]!;
    return [fit.coefficients].flat().join() === [other.coefficients].flat().join();
  });
console.log(`the same to the last bit: ${same(first, again) ? 'yes' : 'no'}`);
await timed(
  'one thread, begun where the first ended',
  1,
  beginningAt(nameFits([...listBookFits(first), ...listRatingFits(first.forRatings)])),
);
