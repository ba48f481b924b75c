import { beforeAll, expect, test } from 'vitest';
import { BallGame } from '../../../src/chances/ball-game.ts';
import { collectChanceRows } from '../../../src/chances/chance-rows.ts';
import { FULL } from '../../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../../src/chances/grounder-chances.ts';
import { fitGrounderModels, type GrounderModels } from '../../../src/chances/grounder-models.ts';
import type { Grounders } from '../../../src/chances/grounders.ts';
import type { Answers } from '../../../src/chances/trust/answers.ts';
import { type CrossValidation, crossValidation } from '../../../src/chances/trust/cross-validate.ts';
import { assignFolds } from '../../../src/chances/trust/folds.ts';
import { playOut } from '../../../src/chances/trust/set-marks.ts';
import { fitHere } from '../../../src/models/fitting.ts';
import { logLoss } from '../../../src/numeric/scores.ts';
import { SILENT } from '../../../src/progress.ts';
import { smallGrounders } from './small-league.ts';

const SETTINGS = { folds: 2, seed: 3 };
let grounders: Grounders;
let models: GrounderModels;
let tested: CrossValidation;
beforeAll(() => {
  grounders = smallGrounders();
  models = fitGrounderModels(grounders, SILENT);
  tested = fitHere(crossValidation(grounders, models, SETTINGS));
});

const count = (test: (at: number) => boolean) => Array.from(grounders.row.keys()).filter(test).length;

test("the set mark by plain prediction is the build's", () => {
  const { set } = playOut(collectChanceRows(grounders, models.travel), models.positions, grounders.count);
  const draws = { draws: 0, source: new Int32Array(0), flags: new Uint16Array(0) };
  const game = new BallGame(grounders, new GrounderChances(grounders, models), draws, MOVABLE_ON_GROUNDERS);
  for (let at = 0; at < grounders.count; at += 1) {
    if (grounders.grade[at] !== FULL) continue;
    game.setActual(at);
    expect(Math.abs((Number.isNaN(set[at]!) ? 0 : set[at]!) - game.value[0]!)).toBeLessThan(1e-12);
  }
});

test('every ball is asked about once', () => {
  const line = (at: number) => !Number.isNaN(grounders.bearingDeg[at]!) && !Number.isNaN(grounders.exitSpeedMph[at]!);
  expect(tested.opening.count).toBe(count(line));
  expect(tested.set.count).toBe(count((at) => grounders.grade[at] === FULL));
  const gathers = tested.reach.map(({ outcome }) => outcome.reduce((sum, y) => sum + y, 0));
  expect(tested.promise.map((answers) => answers.count)).toEqual(gathers);
});

test('on balls that it has not seen, the model is ahead of the constant and of a table', () => {
  for (const answers of [tested.opening, tested.set, tested.reach[3]!, tested.reach[5]!]) {
    const own = logLoss(answers.model, answers.outcome);
    expect(own).toBeLessThan(logLoss(answers.constant, answers.outcome));
    expect(own).toBeLessThan(logLoss(answers.bins, answers.outcome));
  }
  expect(tested.travel!.rmsS.model).toBeLessThan(tested.travel!.rmsS.constant);
});

test('what happened in a fold does not reach the answers about it', () => {
  const fold = assignFolds(grounders, SETTINGS.folds, SETTINGS.seed);
  const turned = { ...grounders, closed: grounders.closed.map((closed, at) => (fold[at] === 0 ? 1 - closed : closed)) };
  const again = fitHere(crossValidation(turned, models, SETTINGS));
  const ofFold = ({ game, model, constant, bins }: Answers, wanted: number) => {
    const games = new Set(
      Array.from(grounders.row.keys())
        .filter((at) => fold[at] === wanted)
        .map((at) => grounders.table.game[grounders.row[at]!]),
    );
    return [model, constant, bins].map((column) => [...column].filter((_, i) => games.has(game[i]!)));
  };
  for (const pick of [
    (c: CrossValidation) => c.opening,
    (c: CrossValidation) => c.set,
    (c: CrossValidation) => c.finish[5]!,
  ]) {
    expect(ofFold(pick(again), 0)).toEqual(ofFold(pick(tested), 0));
    // The other fold was learnt from the turned games, so its answers must move.
    expect(ofFold(pick(again), 1)).not.toEqual(ofFold(pick(tested), 1));
  }
});
