import { describe, expect, it } from 'vitest';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { allocatePlayTable } from '../../src/chances/play-table.ts';
import { selectTurnPlays } from '../../src/chances/turn-plays.ts';
import { BASE_SPOTS } from '../../src/diamond/field.ts';
import { BASES, ON_FIRST, ON_SECOND } from '../../src/diamond/play-codes.ts';

interface Case {
  readonly gatheredBy: number;
  readonly throwTo?: (typeof BASES)[number];
  readonly bases?: number;
  readonly outs?: number;
  readonly gatherSeen?: boolean;
  /** Feet from second base to the gather. */
  readonly secondFt?: number;
  /** Feet from second base to the starts of second baseman and shortstop. */
  readonly middleFt?: readonly [number, number];
}

/** The possible turns of one play: none, or one with its starter and pivot. */
function turnOf(play: Case): { starter: number; pivot: number } | undefined {
  const table = allocatePlayTable(1);
  table.bases[0] = play.bases ?? ON_FIRST;
  table.outsBefore[0] = play.outs ?? 0;
  table.gatheredBy[0] = play.gatheredBy;
  table.throwTo[0] = BASES.indexOf(play.throwTo ?? '2B');
  table.gatherSeen[0] = play.gatherSeen === false ? 0 : 1;
  const second = BASE_SPOTS[2]!;
  if (play.secondFt !== undefined) {
    table.gatherXFt[0] = second.x - play.secondFt;
    table.gatherYFt[0] = second.y;
  }
  play.middleFt?.forEach((feet, k) => {
    table.startXFt[k === 0 ? 3 : 5] = second.x + (k === 0 ? feet : -feet);
    table.startYFt[k === 0 ? 3 : 5] = second.y;
  });
  const plays = selectTurnPlays(selectGrounders(table));
  return plays.count === 0 ? undefined : { starter: plays.starter[0]!, pivot: plays.pivot[0]! };
}

describe('a second out was possible', () => {
  it('with a runner on first, fewer than two out and an infielder who gathered', () => {
    expect(turnOf({ gatheredBy: 6, bases: ON_FIRST | ON_SECOND, outs: 1 })).toBeDefined();
    expect(turnOf({ gatheredBy: 6, bases: ON_SECOND })).toBeUndefined();
    expect(turnOf({ gatheredBy: 6, outs: 2 })).toBeUndefined();
    expect(turnOf({ gatheredBy: 8 })).toBeUndefined();
    expect(turnOf({ gatheredBy: 0 })).toBeUndefined();
  });

  it('not where nobody saw who gathered', () => {
    expect(turnOf({ gatheredBy: 6, gatherSeen: false })).toBeUndefined();
  });
});

describe('the pivot', () => {
  it('is the second baseman for balls on the left side, the shortstop for those on the right and in the middle', () => {
    const pivots = [1, 2, 3, 4, 5, 6].map((gatheredBy) => turnOf({ gatheredBy })!.pivot);
    expect(pivots).toEqual([6, 6, 6, 6, 4, 4]);
  });

  it('is the other of the two in an overshift, when he starts much nearer to the bag', () => {
    expect(turnOf({ gatheredBy: 5, middleFt: [60, 20] })!.pivot).toBe(6);
    expect(turnOf({ gatheredBy: 5, middleFt: [40, 30] })!.pivot).toBe(4);
    expect(turnOf({ gatheredBy: 3, middleFt: [10, 50] })!.pivot).toBe(4);
    // Nobody throws to himself.
    expect(turnOf({ gatheredBy: 6, middleFt: [60, 20] })!.pivot).toBe(4);
    expect(turnOf({ gatheredBy: 4, middleFt: [10, 50] })!.pivot).toBe(6);
  });

  it('is nobody when the ball went to first', () => {
    expect(turnOf({ gatheredBy: 5, throwTo: '1B' })!.pivot).toBe(0);
  });

  it('is nobody when a middle infielder had it at the bag and threw to nobody', () => {
    expect(turnOf({ gatheredBy: 6, throwTo: '', secondFt: 8 })!.pivot).toBe(0);
    expect(turnOf({ gatheredBy: 4, throwTo: '', secondFt: 8 })!.pivot).toBe(0);
    expect(turnOf({ gatheredBy: 6, throwTo: '2B', secondFt: 8 })!.pivot).toBe(4);
    expect(turnOf({ gatheredBy: 6, throwTo: '', secondFt: 30 })!.pivot).toBe(4);
    expect(turnOf({ gatheredBy: 3, throwTo: '', secondFt: 8 })!.pivot).toBe(6);
    expect(turnOf({ gatheredBy: 6, throwTo: '' })!.pivot).toBe(4);
  });

  it('is the man at the bag when the throw goes to third or home', () => {
    expect([1, 5].map((gatheredBy) => turnOf({ gatheredBy, throwTo: '3B' })!.pivot)).toEqual([5, 6]);
    expect([1, 2].map((gatheredBy) => turnOf({ gatheredBy, throwTo: 'home' })!.pivot)).toEqual([2, 1]);
  });
});
