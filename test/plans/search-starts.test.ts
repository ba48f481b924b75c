import nlopt from 'nlopt-js';
import { beforeAll, describe, expect, it } from 'vitest';
import { BallGame } from '../../src/chances/ball-game.ts';
import { chooseEvenDraws } from '../../src/chances/even-draws.ts';
import { FULL } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import type { InfieldModels } from '../../src/chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { ChanceBoard } from '../../src/plans/chance-board.ts';
import type { StartQuestion } from '../../src/plans/grid-search.ts';
import { MovingMarks } from '../../src/plans/moving-marks.ts';
import { searchStarts } from '../../src/plans/search-starts.ts';
import { allocateBalls, GROUND } from '../../src/plans/seen-balls.ts';
import { DEMO_DRAWS } from '../helpers/scored-league.ts';
import { BOXES, boxLimits, libraryBest, MOVERS, worthOfStarts } from './library-search.ts';
import { infieldModelsOf } from './plan-grounds.ts';

let grounders: Grounders;
let models: InfieldModels;

beforeAll(() => {
  grounders = selectGrounders(simulateLeague({ seasons: 1, teams: 2, seed: 9, ballsPerSeason: 3000 }).plays);
  models = infieldModelsOf(grounders);
}, 300_000);

/** Grounders of the book as balls of a plan. */
function ballsAt(list: readonly number[]) {
  const balls = allocateBalls(list.length);
  list.forEach((at, k) => {
    balls.kind[k] = GROUND;
    balls.bearingDeg[k] = grounders.bearingDeg[at]!;
    balls.exitSpeedMph[k] = grounders.exitSpeedMph[at]!;
    balls.launchAngleDeg[k] = grounders.launchAngleDeg[at]!;
    balls.surface[k] = grounders.surface[at]!;
  });
  return balls;
}

const full = () => [...grounders.grade.keys()].filter((at) => grounders.grade[at] === FULL);

describe('the set marks of a plan', () => {
  it('are those of the ledger for the same ball, runner and starts', () => {
    const chances = new GrounderChances(grounders, models);
    const game = new BallGame(grounders, chances, chooseEvenDraws(grounders, DEMO_DRAWS), MOVABLE_ON_GROUNDERS);
    for (const at of full().slice(0, 60)) {
      game.setActual(at);
      const facts = { state: grounders.state[at]!, batterToFirstS: grounders.batterToFirstS[at]! };
      const board = new ChanceBoard({ grounders: models, air: null }, ballsAt([at]), facts);
      const starts = new Float64Array(18);
      starts.set(grounders.starts.subarray(at * 12, at * 12 + 12));
      expect(new MovingMarks(board).at(starts)[0]).toBeCloseTo(game.value[0]!, 12);
    }
  });

  it('are the same to the bit whatever placements were asked about before', () => {
    const balls = ballsAt(full().slice(0, 40));
    const board = new ChanceBoard({ grounders: models, air: null }, balls, { state: 0, batterToFirstS: 4.3 });
    const moving = new MovingMarks(board);
    for (const at of full().slice(40, 60)) {
      const starts = new Float64Array(18);
      // One man after another takes the starts of another play.
      for (const men of [1, 3, 6]) {
        starts.set(grounders.starts.subarray(at * 12, at * 12 + 2 * men));
        expect(moving.at(starts)).toEqual(new MovingMarks(board).at(starts));
      }
    }
  });
});

describe('the search', () => {
  it('finds starts no worse than two library optimisers from the same beginnings, in the same boxes', async () => {
    const pulled = full()
      .filter((at) => grounders.table.batterSide[grounders.row[at]!] === 0)
      .slice(0, 360);
    const even = new Float64Array(18);
    even.set([0, 55, 0, -3, 66, 99, 41, 143, -59, 105, -22, 146]);
    const board = new ChanceBoard({ grounders: models, air: null }, ballsAt(pulled), { state: 0, batterToFirstS: 4.3 });
    const worth = new Float64Array(pulled.length).fill(1 / pulled.length);
    const question: StartQuestion = { board, worth, others: even, moveCost: 2e-5, movers: MOVERS, limits: boxLimits() };
    const shifted = even.slice();
    shifted.set([76, 110, 60, 150, -45, 120, 5, 150], 4);
    const beginnings = [even, shifted];
    const own = searchStarts(question, beginnings, 4, createRandom(1));
    expect(own.value).toBeCloseTo(worthOfStarts(question, own.starts), 6);
    for (const position of MOVERS) {
      const [left, right, near, far] = BOXES[position]!;
      expect(own.starts[2 * position - 2]).toBeGreaterThanOrEqual(left - 1e-6);
      expect(own.starts[2 * position - 2]).toBeLessThanOrEqual(right + 1e-6);
      expect(own.starts[2 * position - 1]).toBeGreaterThanOrEqual(near - 1e-6);
      expect(own.starts[2 * position - 1]).toBeLessThanOrEqual(far + 1e-6);
    }
    await nlopt.ready;
    const found = [
      ...beginnings.map((starts) => libraryBest(question, starts, 'LN_BOBYQA', 300)),
      libraryBest(question, even, 'GN_CRS2_LM', 800),
    ];
    // The finest grid, 0.4 ft, may leave some ten-thousandths of an out. (On fewer than half as many balls the objective is so
    // rugged that CRS2 once came out ahead by 0.0017; docs/decisions/061 has the comparison on samples as plans use them.)
    for (const value of found) expect(own.value, found.join(', ')).toBeGreaterThan(value - 0.0005);
  }, 120_000);
});
