import { describe, expect, it } from 'vitest';
import { selectAirBalls } from '../../../src/chances/air/air-balls.ts';
import { carryFits, projectFlights } from '../../../src/chances/air/carry.ts';
import { flagText, GRADES } from '../../../src/chances/grades.ts';
import { allocatePlayTable, type PlayTableDraft } from '../../../src/chances/play-table.ts';
import { BALL_KINDS, RESULTS } from '../../../src/diamond/play-codes.ts';
import { fitHere } from '../../../src/models/fitting.ts';

/** One fly to centre field with everybody in place; `change` makes it something else. */
function selectOne(change: (table: PlayTableDraft) => void = () => {}) {
  const table = allocatePlayTable(1);
  table.playId = ['one'];
  table.ballKind[0] = BALL_KINDS.indexOf('fly');
  table.exitSpeedMph[0] = 90;
  table.launchAngleDeg[0] = 30;
  table.bearingDeg[0] = 0;
  table.landingXFt[0] = 0;
  table.landingYFt[0] = 300;
  table.hangTimeS[0] = 4;
  table.touchedBy[0] = 8;
  table.gatheredBy[0] = 8;
  table.gatherTimeS[0] = 4;
  table.outsMade[0] = 1;
  table.result[0] = RESULTS.indexOf('out');
  for (let k = 0; k < 9; k += 1) {
    table.startXFt[k] = 10 * k;
    table.startYFt[k] = 20 + 30 * k;
  }
  change(table);
  const balls = selectAirBalls(table);
  return {
    balls,
    grade: GRADES[balls.grade[0]!],
    caughtBy: balls.table.gatheredBy[0],
    touchedBy: balls.table.touchedBy[0],
    hopBy: balls.hopBy[0],
    inGlove: balls.inGlove[0],
    flags: flagText(balls.flags[0]!),
  };
}

const asLiner = (table: PlayTableDraft) => {
  table.ballKind[0] = BALL_KINDS.indexOf('liner');
};
const asHit = (table: PlayTableDraft) => {
  table.outsMade[0] = 0;
  table.result[0] = RESULTS.indexOf('single');
};

describe('balls in the air of a table', () => {
  it('are liners, flies and popups', () => {
    const table = allocatePlayTable(5);
    table.playId = ['a', 'b', 'c', 'd', 'e'];
    table.ballKind.set([0, 1, 2, 3, 4]);
    expect([...selectAirBalls(table).row]).toEqual([1, 2, 3]);
  });

  it('leave the table that was given as it was', () => {
    const table = allocatePlayTable(1);
    table.playId = ['one'];
    table.ballKind[0] = 2;
    table.gatheredBy[0] = 7;
    selectAirBalls(table);
    expect(table.gatheredBy[0]).toBe(7);
  });

  it('are caught by whoever gathered them for an out', () => {
    expect(selectOne()).toMatchObject({ grade: 'full', caughtBy: 8, touchedBy: 8, hopBy: 0, inGlove: 1, flags: '' });
  });

  it('are not gathered when they were picked up after they fell', () => {
    expect(selectOne(asHit)).toMatchObject({ grade: 'full', caughtBy: 0, touchedBy: 0, hopBy: 8, inGlove: 0 });
    const forced = selectOne((table) => {
      table.result[0] = RESULTS.indexOf('fielders_choice');
      table.gatherTimeS[0] = 5;
    });
    expect(forced).toMatchObject({ caughtBy: 0, hopBy: 8, inGlove: 0 });
    expect(forced.balls.closed[0]).toBe(1);
  });

  it("leave an outfielder's throw after a hop out of his catches, an infielder's in", () => {
    const late = (by: number) => (table: PlayTableDraft) => {
      asLiner(table);
      table.gatheredBy[0] = by;
      table.touchedBy[0] = by;
      table.gatherTimeS[0] = 4.5;
    };
    expect(selectOne(late(9))).toMatchObject({ caughtBy: 0, hopBy: 9, inGlove: 0 });
    expect(selectOne(late(6))).toMatchObject({ caughtBy: 6, hopBy: 0, inGlove: 0 });
  });

  it('are dropped by who touched them and had nobody gather them', () => {
    const dropped = selectOne((table) => {
      asHit(table);
      table.gatheredBy[0] = 0;
      table.touchedBy[0] = 7;
    });
    expect(dropped).toMatchObject({ caughtBy: 0, touchedBy: 7, hopBy: 0 });
  });

  it('say what is missing and how much can be known', () => {
    const without = (change: (table: PlayTableDraft) => void) => {
      const { grade, flags } = selectOne(change);
      return `${grade}: ${flags}`;
    };
    expect(without((t) => t.hangTimeS.fill(Number.NaN))).toBe('ground: no_flight');
    expect(without((t) => t.landingXFt.fill(Number.NaN))).toBe('ground: no_flight');
    expect(without((t) => t.startXFt.fill(Number.NaN, 6, 7))).toBe('ground: no_starts');
    // Pitcher and catcher have their usual places, and speed and angle are not needed.
    expect(without((t) => t.startXFt.fill(Number.NaN, 0, 2))).toBe('full: ');
    expect(without((t) => t.exitSpeedMph.fill(Number.NaN))).toBe('full: no_speed');
    expect(without((t) => t.gatherSeen.fill(0))).toBe('whole: ');
    expect(without((t) => t.gatheredBy.fill(0))).toBe('whole: ');
  });

  it('take a bearing that is missing from the landing', () => {
    const ball = selectOne((table) => {
      table.bearingDeg[0] = Number.NaN;
      table.landingXFt[0] = -300;
    });
    expect(ball.balls.bearingDeg[0]).toBeCloseTo(-45, 9);
  });
});

describe('flights without a carry model', () => {
  const flightOf = (change: (table: PlayTableDraft) => void) => {
    const { balls } = selectOne(change);
    const carry = fitHere(carryFits(balls));
    expect(carry.fitted).toBeNull();
    const { distanceFt, hangS, sin, cos } = projectFlights(balls, carry);
    return { distanceFt: distanceFt[0]!, hangS: hangS[0]!, sin: sin[0]!, cos: cos[0]! };
  };

  it('are as recorded for a ball that fell', () => {
    expect(flightOf(asHit)).toEqual({ distanceFt: 300, hangS: 4, sin: 0, cos: 1 });
  });

  it('go on a little from a glove', () => {
    const caught = flightOf(() => {});
    expect(caught.hangS).toBeGreaterThan(4);
    expect(caught.hangS).toBeLessThan(4.15);
    expect(caught.distanceFt).toBeGreaterThan(300);
    expect(caught.distanceFt).toBeLessThan(312);
  });

  it('are unknown without record or model', () => {
    expect(flightOf((table) => table.hangTimeS.fill(Number.NaN)).distanceFt).toBeNaN();
  });
});
