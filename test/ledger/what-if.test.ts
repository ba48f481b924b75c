import { beforeAll, describe, expect, it } from 'vitest';
import { type AirBalls, selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { AirChances, MOVABLE_IN_THE_AIR } from '../../src/chances/air/air-chances.ts';
import { type AirModels, fitAirModels } from '../../src/chances/air/air-models.ts';
import { traceArea } from '../../src/chances/area-covered.ts';
import { BallGame } from '../../src/chances/ball-game.ts';
import { chooseEvenDraws, type EvenDraws } from '../../src/chances/even-draws.ts';
import { FULL } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import { fitGrounderModels, type GrounderModels } from '../../src/chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { MovedMarks } from '../../src/ledger/moved-marks.ts';
import { PlacementShares } from '../../src/ledger/placement-shares.ts';
import { packAirBall, packGroundBall, packPlayCase } from '../../src/ledger/play-case.ts';
import { fromSetModelsFile, type SetModels, toSetModelsFile } from '../../src/ledger/set-models.ts';
import { type Trial, WhatIf } from '../../src/ledger/what-if.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';
import { heldSmoothing } from '../helpers/held-smoothing.ts';

const DRAWS = { draws: 24, window: 'rolling', seed: 2 } as const;
const SHIFTS = { opening: 0.31, set: -0.12, gathered: 0 };
const TRIED = 60;

let grounders: Grounders;
let air: AirBalls;
let groundModels: GrounderModels;
let airModels: AirModels;
let groundDraws: EvenDraws;
let airDraws: EvenDraws;

beforeAll(() => {
  const { plays } = simulateLeague({ seasons: 1, teams: 4, seed: 21, ballsPerSeason: 900 });
  grounders = selectGrounders(plays);
  air = selectAirBalls(plays);
  groundModels = fitGrounderModels(grounders, SILENT, heldSmoothing());
  airModels = fitAirModels(air, SILENT, heldSmoothing());
  groundDraws = chooseEvenDraws(grounders, DRAWS);
  airDraws = chooseEvenDraws(air, DRAWS);
});

/** What a page would make of a play: everything through JSON, as it comes over the wire. */
function whatIf(ballClass: 'ground' | 'air', at: number): WhatIf {
  const models: SetModels =
    ballClass === 'ground'
      ? { ballClass, infield: groundModels }
      : { ballClass, reach: airModels.reach, kept: airModels.kept };
  const playCase =
    ballClass === 'ground'
      ? packPlayCase(grounders, at, packGroundBall(grounders, at), MOVABLE_ON_GROUNDERS, groundDraws, SHIFTS, 0.8)
      : packPlayCase(
          air,
          at,
          packAirBall(new AirChances(air, airModels), at),
          MOVABLE_IN_THE_AIR,
          airDraws,
          SHIFTS,
          0.8,
        );
  return new WhatIf(fromSetModelsFile(plain(toSetModelsFile(models))), plain(playCase!));
}

const plain = <T>(data: T): T => JSON.parse(JSON.stringify(data));
const ofMan = ({ men }: Trial, position: number) => men.find((man) => man.position === position)!;

describe.each(['ground', 'air'] as const)('what if, %s', (ballClass) => {
  const classOf = () =>
    ballClass === 'ground'
      ? { plays: grounders, movable: MOVABLE_ON_GROUNDERS, draws: groundDraws }
      : { plays: air, movable: MOVABLE_IN_THE_AIR, draws: airDraws };
  /** Plays of grade full, spread over the season. */
  const fullPlays = () => {
    const { plays } = classOf();
    const full = [...plays.grade.keys()].filter((at) => plays.grade[at] === FULL);
    return full.filter((_, k) => k % Math.ceil(full.length / TRIED) === 0);
  };
  const startsOf = (at: number) => {
    const { men, starts } = classOf().plays;
    return starts.slice(at * men * 2, (at + 1) * men * 2);
  };

  it('answers any starts as the build would have scored the play with them', () => {
    const { plays, movable, draws } = classOf();
    const chances =
      ballClass === 'ground' ? new GrounderChances(grounders, groundModels) : new AirChances(air, airModels);
    const random = createRandom(5);
    for (const at of fullPlays()) {
      const moved = startsOf(at).map((value, i) =>
        (movable as readonly number[]).includes(i >> 1) ? value + 40 * (random.next() - 0.5) : value,
      );
      const trial = whatIf(ballClass, at).try(moved);
      const starts = plays.starts.slice();
      starts.set(moved, at * plays.men * 2);
      const game = new BallGame({ men: plays.men, starts }, chances, draws, movable);
      const placement = new PlacementShares(game, draws.draws);
      placement.settle(at, SHIFTS);
      expect(Math.abs(trial.set - placement.set)).toBeLessThan(1e-12);
      expect(Math.abs(trial.opening - placement.opening)).toBeLessThan(1e-12);
      expect(trial.men.map(({ position }) => position - 1)).toEqual([...game.chanceOrder]);
      for (let b = 0; b < game.playerCount; b += 1) {
        const man = ofMan(trial, game.players[b]! + 1);
        expect(Math.abs(man.placementOuts - placement.outs[b]!)).toBeLessThan(1e-12);
        expect(man.placementRuns).toBeCloseTo(0.8 * man.placementOuts, 14);
        expect(man.reach).toBe(game.reach[man.position - 1]);
      }
    }
  });

  it('sets the marks of moved men that a whole book of them would have', () => {
    const { plays } = classOf();
    const chances =
      ballClass === 'ground' ? new GrounderChances(grounders, groundModels) : new AirChances(air, airModels);
    const marks = new MovedMarks(plays, chances);
    const random = createRandom(6);
    for (const at of fullPlays().slice(0, 20)) {
      const tried = whatIf(ballClass, at);
      const moved = [4, 6].map((position) => ({
        position,
        xFt: plays.starts[2 * (at * plays.men + position - 1)]! + 30 * (random.next() - 0.5),
        yFt: plays.starts[2 * (at * plays.men + position - 1) + 1]! + 30 * (random.next() - 0.5),
      }));
      const starts = startsOf(at);
      for (const { position, xFt, yFt } of moved) starts.set([xFt, yFt], 2 * position - 2);
      const odds = Math.exp(SHIFTS.set);
      expect(Math.abs(marks.mark(at, odds, moved) - tried.try(starts).set)).toBeLessThan(1e-12);
      // The next question is about the men where they stood, whatever was asked before; nobody is there at position 10.
      const nobody = { position: 10, xFt: 0, yFt: 0 };
      expect(Math.abs(marks.mark(at, odds, [nobody]) - tried.try(startsOf(at)).set)).toBeLessThan(1e-12);
    }
  });

  it('leaves the opening mark where it is, and its placements add up to set less opening', () => {
    for (const at of fullPlays().slice(0, 20)) {
      const tried = whatIf(ballClass, at);
      const own = tried.try(startsOf(at));
      const far = tried.try(startsOf(at).map((value, i) => (i >> 1 === 5 ? value - 60 : value)));
      expect(Math.abs(far.opening - own.opening)).toBeLessThan(1e-13);
      for (const { men, set, opening } of [own, far])
        expect(men.reduce((sum, { placementOuts }) => sum + placementOuts, 0)).toBeCloseTo(set - opening, 12);
      expect(tried.try(startsOf(at))).toEqual(own);
    }
  });

  it('covers at the ball itself as much as his reach there', () => {
    const { plays } = classOf();
    let compared = 0;
    for (const at of fullPlays()) {
      const tried = whatIf(ballClass, at);
      for (const { position, startXFt, startYFt, reach, gapFt } of tried.try(startsOf(at)).men) {
        if (reach === 0 || position <= 2) continue;
        const bearing = (plays.bearingDeg[at]! * Math.PI) / 180;
        const along = startXFt * Math.sin(bearing) + startYFt * Math.cos(bearing);
        const flight = ballClass === 'air' ? packAirBall(new AirChances(air, airModels), at) : null;
        const [x, y] =
          flight === null
            ? [along * Math.sin(bearing), along * Math.cos(bearing)]
            : [flight.sin * flight.distanceFt, flight.cos * flight.distanceFt];
        expect(tried.cover(position, startXFt, startYFt, x, y)).toBeCloseTo(reach, 9);
        if (flight === null) expect(Math.hypot(x - startXFt, y - startYFt)).toBeCloseTo(Math.abs(gapFt), 9);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(TRIED);
  });

  it('tells when the ball is where: later the farther, at the start at once', () => {
    for (const at of fullPlays().slice(0, 10)) {
      const { secondsTo } = whatIf(ballClass, at);
      const times = [0, 20, 60, 100, 150].map(secondsTo);
      expect(times[0]).toBeCloseTo(0, 12);
      for (let k = 1; k < times.length; k += 1) expect(times[k]).toBeGreaterThan(times[k - 1]!);
    }
  });

  it('refuses the models of another class, and starts of another number', () => {
    const at = fullPlays()[0]!;
    const tried = whatIf(ballClass, at);
    expect(() => tried.try([0, 1])).toThrow(RangeError);
    const other = ballClass === 'ground' ? 'air' : 'ground';
    const models: SetModels =
      other === 'ground'
        ? { ballClass: other, infield: groundModels }
        : { ballClass: other, reach: airModels.reach, kept: airModels.kept };
    expect(() => new WhatIf(models, { ...tried.playCase })).toThrow(/expected/);
  });
});

describe('the area that a man covers', () => {
  const round = (x: number, y: number) => 1 / (1 + Math.exp((Math.hypot(x - 10, y - 100) - 20) / 5));

  it('is a circle where the chance falls alike in all directions, at the distance where it has the level', () => {
    const [wide, half, sure] = traceArea(round, 10, 100, [0.1, 0.5, 0.9], 1, 80);
    const radii = (points: Float64Array) =>
      Array.from({ length: points.length / 2 }, (_, k) => Math.hypot(points[2 * k]! - 10, points[2 * k + 1]! - 100));
    for (const radius of radii(half!.points)) expect(radius).toBeCloseTo(20, 1);
    for (const radius of radii(wide!.points)) expect(radius).toBeCloseTo(20 + 5 * Math.log(9), 1);
    for (const radius of radii(sure!.points)) expect(radius).toBeCloseTo(20 - 5 * Math.log(9), 1);
  });

  it('is empty at a level that he does not have where he stands, and ends where nobody runs', () => {
    const [edge, none] = traceArea(() => 0.6, 0, 0, [0.5, 0.7], 5, 60);
    expect(none!.points).toHaveLength(0);
    expect(Math.hypot(edge!.points[0]!, edge!.points[1]!)).toBeCloseTo(60, 9);
  });
});
