import { expect, test } from 'vitest';
import { selectAirBalls } from '../../../src/chances/air/air-balls.ts';
import { groundRatingFits } from '../../../src/chances/rating-models.ts';
import { rateAndTabulate } from '../../../src/commands/rate-and-tabulate.ts';
import { startRatingHands } from '../../../src/commands/ratings/rating-hands.ts';
import { runValues } from '../../../src/ledger/runs/run-values.ts';
import { fitHere } from '../../../src/models/fitting.ts';
import { scoreLeague } from '../../helpers/scored-league.ts';

test('two threads rate and bootstrap to the last bit as one does', async () => {
  const { league, grounders, models, ledger } = scoreLeague({ seasons: 2, teams: 2, seed: 5, ballsPerSeason: 500 });
  const { plays: table, people } = league;
  const forRatings = { ...fitHere(groundRatingFits(grounders, models)), airReach: [] };
  const of = <T>(column: readonly T[]) => new Map(people.personId.map((id, k) => [id, column[k]!]));
  const rate = (threads: number) =>
    rateAndTabulate(
      { table, grounders, air: selectAirBalls(table) },
      { grounders: models, turn: null, air: null, values: runValues(table), hits: null, forRatings },
      { ledgers: [ledger], turns: [] },
      { names: of(people.name), throws: of(people.throws), born: of(people.born), fieldTime: new Map() },
      { replicates: 200, seed: 3 },
      threads,
    );
  const here = await rate(1);
  const there = await rate(2);
  expect(there.tables).toStrictEqual(here.tables);
  expect(there.rated.seasons).toStrictEqual(here.rated.seasons);
  // There is something to compare.
  const column = (name: string, wanted: string) =>
    here.tables[name]!.columns.find(({ name: own }) => own === wanted)!.values as Float64Array;
  expect(column('fielders', 'net_runs_se').some((se) => se > 0)).toBe(true);
  expect(column('ratings', 'rating').some((rating) => rating !== 0)).toBe(true);
  expect(column('rates', 'reach_outs_per_100_se').some((se) => se > 0)).toBe(true);
});

test('a task that fails on a thread says which and why', async () => {
  const hands = startRatingHands(2);
  try {
    const question = { evidence: null as never, season: 2031 };
    await expect(hands.do('season', question)).rejects.toThrow(/task season 1 was not done: /);
  } finally {
    await hands.close();
  }
});
