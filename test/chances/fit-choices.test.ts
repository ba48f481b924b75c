import { expect, test } from 'vitest';
import { beginningAt, nameFits } from '../../src/chances/fit-choices.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { turnFits } from '../../src/chances/turn-model.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { hitFits } from '../../src/ledger/runs/hit-model.ts';
import { fitHere, type TaskFit, together } from '../../src/models/fitting.ts';

const { plays } = simulateLeague({ seasons: 1, teams: 4, seed: 5, ballsPerSeason: 3000 });
const grounders = selectGrounders(plays);
const objective = (fit: TaskFit) => fit.record.endObjective;
const passes = (fits: readonly TaskFit[]) => fits.reduce((sum, { record }) => sum + record.iterations, 0);

/** Models of both kinds. */
function fitAll(choices = {}): TaskFit[] {
  const [turn, hits] = fitHere(together([turnFits(grounders, choices), hitFits(plays, choices)]));
  return [...turn.gathered, ...turn.thrown, ...hits.groups.flatMap(({ fitted }) => fitted ?? [])];
}

test('a fit that begins where the last one ended takes fewer passes to the same optimum', () => {
  const cold = fitAll();
  expect(cold.some((fit) => 'spec' in fit)).toBe(true);
  const warm = fitAll(beginningAt(nameFits(cold)));
  expect(passes(warm)).toBeLessThan(0.4 * passes(cold));
  warm.forEach((fit, k) => {
    expect(Math.abs(objective(fit) / objective(cold[k]!) - 1)).toBeLessThan(1e-3);
    expect(fit.record.stopped).toBe('converged');
  });
});

test('a model whose terms are others begins afresh', () => {
  const cold = fitAll();
  const coarser = { terms: (_: string, own: readonly unknown[]) => own.slice(0, 1) };
  const afresh = fitAll(coarser);
  expect(fitAll({ ...coarser, ...beginningAt(nameFits(cold)) })).toStrictEqual(afresh);
});
