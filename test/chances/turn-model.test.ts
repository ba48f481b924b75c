import { beforeAll, describe, expect, it } from 'vitest';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { type TurnModel, turnChances, turnFits } from '../../src/chances/turn-model.ts';
import { fromTurnModelFile, toTurnModelFile } from '../../src/chances/turn-model-file.ts';
import { selectTurnPlays, type TurnPlays } from '../../src/chances/turn-plays.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { logLoss } from '../../src/numeric/scores.ts';

/** Fitted on one demo league, tried on another with other people in it. */
describe('chances of the second out', () => {
  let model: TurnModel;
  let others: Grounders;
  let plays: TurnPlays;
  beforeAll(() => {
    const league = (seed: number) => simulateLeague({ seasons: 1, teams: 6, seed, ballsPerSeason: 12_000 });
    model = fitHere(turnFits(selectGrounders(league(11).plays)));
    others = selectGrounders(league(12).plays);
    plays = selectTurnPlays(others);
  });

  const without = (...columns: ('gatherTimeS' | 'gatherXFt' | 'gatherYFt')[]): Grounders => {
    const blank = new Float64Array(others.table.count).fill(Number.NaN);
    return { ...others, table: { ...others.table, ...Object.fromEntries(columns.map((name) => [name, blank])) } };
  };
  const lossOf = (grounders: Grounders) => logLoss(turnChances(model, grounders, plays).gathered, plays.made);

  it('tell more of strangers, the more is known of the gather', () => {
    const share = plays.made.reduce((sum, made) => sum + made, 0) / plays.count;
    const constant = logLoss(new Float64Array(plays.count).fill(share), plays.made);
    const [byTime, byPlace, byGatherer] = [
      lossOf(others),
      lossOf(without('gatherTimeS')),
      lossOf(without('gatherTimeS', 'gatherXFt', 'gatherYFt')),
    ];
    expect(plays.count).toBeGreaterThan(600);
    expect(byTime).toBeLessThan(0.9 * byPlace);
    expect(byPlace).toBeLessThan(0.9 * byGatherer);
    expect(byGatherer).toBeLessThan(constant);
  });

  it('are right on average in each fifth of them, among strangers', () => {
    const { gathered } = turnChances(model, others, plays);
    const order = Array.from(gathered.keys()).sort((a, b) => gathered[a]! - gathered[b]!);
    for (let fifth = 0; fifth < 5; fifth += 1) {
      const own = order.slice(Math.floor((fifth * plays.count) / 5), Math.floor(((fifth + 1) * plays.count) / 5));
      const sum = (value: (k: number) => number) => own.reduce((total, k) => total + value(k), 0);
      const excess = sum((k) => plays.made[k]! - gathered[k]!);
      const deviation = Math.sqrt(sum((k) => gathered[k]! * (1 - gathered[k]!)));
      // Both leagues are of a size, so the model's own error is about as large as the luck: three of both.
      expect(Math.abs(excess)).toBeLessThan(3 * Math.SQRT2 * deviation);
    }
  });

  it('after the throw are there for plays with a pivot only', () => {
    const { thrown } = turnChances(model, others, plays);
    thrown.forEach((chance, k) => {
      expect(Number.isNaN(chance)).toBe(plays.pivot[k] === 0);
    });
  });

  it('survive their file bit for bit', () => {
    const again = fromTurnModelFile(JSON.parse(JSON.stringify(toTurnModelFile(model))));
    expect(turnChances(again, others, plays)).toEqual(turnChances(model, others, plays));
  });
});
