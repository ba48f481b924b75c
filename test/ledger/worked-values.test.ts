import { describe, expect, it } from 'vitest';
import { fitGrounderModels } from '../../src/chances/grounder-models.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { FINISH, PLACEMENT, REACH } from '../../src/ledger/entry-kinds.ts';
import { scoreGrounders } from '../../src/ledger/score-grounders.ts';
import { SILENT } from '../../src/progress.ts';
import { AWAY, type Fabricated, fabricatePlays } from '../chances/fabricated-plays.ts';

/** The whole path from plays to entries: fitting, marks, balance. */
function score(plays: readonly Fabricated[]): ClassLedger {
  const grounders = selectGrounders(fabricatePlays(plays));
  const models = fitGrounderModels(grounders, SILENT);
  return scoreGrounders(grounders, models, { draws: 24, window: 'rolling', seed: 1 }, SILENT);
}

const repeat = (count: number, play: (k: number) => Fabricated) => Array.from({ length: count }, (_, k) => play(k));

/** Mean outs a play by position (0 for everybody) and kind, over the plays that `keep` lets in. */
function meanEntry(
  { entries, plays: grounders }: ClassLedger,
  position: number,
  kinds: number[],
  keep: (at: number) => boolean,
) {
  let sum = 0;
  for (let e = 0; e < entries.count; e += 1) {
    const wanted = position === 0 || entries.position[e] === position;
    if (wanted && kinds.includes(entries.kind[e]!) && keep(entries.play[e]!)) sum += entries.outs[e]!;
  }
  return sum / Array.from({ length: grounders.count }, (_, at) => at).filter(keep).length;
}

const HIT = { gatheredBy: 7, touchedBy: 0, outs: 0 } as const;

describe('one defender who makes six in ten (common practice: .60 made is +.40, missed is -.60)', () => {
  // A ball 12 ft to the shortstop's right, always the same; nobody else is near. Two clubs stand alike.
  const plays = ['Reed', 'Marsh'].flatMap((club) =>
    repeat(500, (k) => ({
      club,
      bearing: -20,
      starts: { ...AWAY, 6: [-36, 135] as const },
      ...(k % 5 < 3 ? { gatheredBy: 6, outs: 1 } : HIT),
    })),
  );
  const ledger = score(plays);
  const made = (at: number) => ledger.plays.closed[at] === 1;
  const missed = (at: number) => !made(at);

  it('opens and sets at .60', () => {
    for (let at = 0; at < ledger.plays.count; at += 1) {
      expect(ledger.opening[at]).toBeCloseTo(0.6, 9);
      expect(ledger.set[at]).toBeCloseTo(0.6, 9);
    }
  });

  it('pays +.40 for each one made and charges .60 for each one missed, to the last bit over the team', () => {
    expect(meanEntry(ledger, 0, [REACH, FINISH], made)).toBeCloseTo(0.4, 9);
    expect(meanEntry(ledger, 0, [REACH, FINISH], missed)).toBeCloseTo(-0.6, 9);
  });

  it('pays and charges the shortstop, all but the crumbs that the fit leaves to pitcher and catcher', () => {
    expect(Math.abs(meanEntry(ledger, 6, [REACH, FINISH], made) - 0.4)).toBeLessThan(0.005);
    expect(Math.abs(meanEntry(ledger, 6, [REACH, FINISH], missed) + 0.6)).toBeLessThan(0.005);
  });

  it('finds nothing in placement, both clubs standing alike', () => {
    expect(Math.abs(meanEntry(ledger, 6, [PLACEMENT], () => true))).toBeLessThan(1e-9);
  });
});

describe('two infielders at .9 and .7 on one ball (common practice: that is not 1.6 outs)', () => {
  // Reed has both men on the ball's line, the shortstop in front; Marsh has everybody out of the way.
  const there = { ...AWAY, 6: [0, 120], 4: [0, 145] } as const;
  const plays = [
    ...repeat(1000, (k) => ({
      club: 'Reed',
      bearing: 0,
      starts: there,
      ...(k % 100 < 90
        ? { gatheredBy: 6, outs: 1 }
        : k % 100 < 97
          ? { gatheredBy: 4, outs: 1 }
          : { ...HIT, gatheredBy: 8 }),
    })),
    ...repeat(1000, () => ({ club: 'Marsh', bearing: 0, starts: AWAY, ...HIT, gatheredBy: 8 })),
  ];
  const ledger = score(plays);
  const reed = (at: number) => ledger.plays.table.fieldingTeam[ledger.plays.row[at]!] === 0;

  it('is an out .97 of the time with both, hardly ever with neither', () => {
    const at = Array.from({ length: ledger.plays.count }, (_, k) => k).find(reed)!;
    expect(ledger.set[at]).toBeCloseTo(0.97, 2);
    expect(ledger.opening[at]).toBeLessThan(0.01);
  });

  it('pays the two together what the pair adds, and shares out what either would have had', () => {
    const shortstop = meanEntry(ledger, 6, [PLACEMENT], reed);
    const second = meanEntry(ledger, 4, [PLACEMENT], reed);
    expect(shortstop + second).toBeCloseTo(0.97, 2);
    // Shapley's shares: v(6) = .9, v(4) = .7, v(both) = .97, so (.9 + .27)/2 and (.7 + .07)/2.
    expect(Math.abs(shortstop - 0.585)).toBeLessThan(0.01);
    expect(Math.abs(second - 0.385)).toBeLessThan(0.01);
  });

  it('charges the second baseman nothing for the balls that the shortstop had', () => {
    const by = (at: number) => ledger.plays.table.gatheredBy[ledger.plays.row[at]!];
    expect(meanEntry(ledger, 4, [REACH, FINISH], (at) => reed(at) && by(at) === 6)).toBe(0);
    expect(meanEntry(ledger, 4, [REACH, FINISH], (at) => reed(at) && by(at) === 4)).toBeCloseTo(0.3, 2);
    expect(meanEntry(ledger, 4, [REACH, FINISH], (at) => reed(at) && by(at) === 8)).toBeCloseTo(-0.7, 2);
  });
});
