import { expect, test } from 'vitest';
import { selectGrounders } from '../../../src/chances/grounders.ts';
import { travelFit } from '../../../src/chances/travel-time.ts';
import { turnFits } from '../../../src/chances/turn-model.ts';
import { fitOnThreads } from '../../../src/commands/fits/fit-on-threads.ts';
import { simulateLeague } from '../../../src/league/simulate-league.ts';
import { hitFits } from '../../../src/ledger/runs/hit-model.ts';
import { FitFailure } from '../../../src/models/fit-record.ts';
import { fitHere, oneFit, together } from '../../../src/models/fitting.ts';
import { SILENT } from '../../../src/progress.ts';

test('two threads fit to the last bit as one does', async () => {
  const { plays } = simulateLeague({ seasons: 1, teams: 2, seed: 5, ballsPerSeason: 1200 });
  const grounders = selectGrounders(plays);
  const fitting = () => together([travelFit(grounders), turnFits(grounders), hitFits(plays)]);
  const steps: number[] = [];
  const progress = { ...SILENT, advance: (done: number) => void steps.push(done) };
  const there = await fitOnThreads(fitting(), 2, progress);
  expect(there).toStrictEqual(fitHere(fitting()));
  // Every fit is told of once, in whatever order they come.
  expect(steps).toEqual(steps.map((_, k) => k + 1));
});

test('of the fits that do not arrive the first is named, with its record', async () => {
  const data = { count: 4, covariates: { x: [0, 1, 2, 3] }, response: [1, 2, 40, 1000] };
  const fit = (name: string, maxIterations: number) =>
    oneFit(
      { name, family: 'poisson', terms: [{ kind: 'linear', covariate: 'x', centre: 0 }] },
      { maxIterations },
      () => data,
    );
  const fitting = () => together([fit('arrives', 50), fit('stops', 1), fit('stops, too', 1)]);
  const here = thrownBy(() => fitHere(fitting()));
  const there = await fitOnThreads(fitting(), 2, SILENT).catch((thrown: unknown) => thrown);
  expect(there).toBeInstanceOf(FitFailure);
  expect((there as FitFailure).message).toMatch(/model stops did not converge/);
  expect((there as FitFailure).record).toEqual(here.record);
});

function thrownBy(work: () => unknown): FitFailure {
  try {
    work();
  } catch (thrown) {
    return thrown as FitFailure;
  }
  throw new Error('nothing was thrown');
}
