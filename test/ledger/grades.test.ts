import { describe, expect, it } from 'vitest';
import { flagText, GRADES } from '../../src/chances/grades.ts';
import { fitGrounderModels, type GrounderModels } from '../../src/chances/grounder-models.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import type { PlayTable, PlayTableDraft } from '../../src/chances/play-table.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { ENTRY_KINDS } from '../../src/ledger/entry-kinds.ts';
import { scoreGrounders } from '../../src/ledger/score-grounders.ts';
import { SILENT } from '../../src/progress.ts';
import { heldSmoothing } from '../helpers/held-smoothing.ts';

const league = simulateLeague({ seasons: 1, teams: 4, seed: 8, ballsPerSeason: 1500 });

/** The league's plays, every column copied, with something taken away. */
function without(spoil: (table: PlayTableDraft, row: number) => void, keep = league.plays.count): PlayTable {
  const copy: Record<string, unknown> = {};
  for (const [name, column] of Object.entries(league.plays)) {
    copy[name] = typeof column === 'number' ? column : (column as Float64Array).slice();
  }
  const table = copy as unknown as PlayTableDraft;
  for (let row = 0; row < table.count; row += 1) spoil(table, row);
  table.count = keep;
  return table;
}

function score(table: PlayTable, onFitted: (models: GrounderModels) => void = () => {}): ClassLedger {
  const grounders = selectGrounders(table);
  const models = fitGrounderModels(grounders, SILENT, heldSmoothing());
  onFitted(models);
  return scoreGrounders(grounders, models, { draws: 24, window: 'rolling', seed: 1 }, SILENT);
}

/** Outs by kind of one play. */
function kindsOf({ entries }: ClassLedger, at: number): Map<string, number> {
  const sums = new Map<string, number>();
  for (let e = 0; e < entries.count; e += 1) {
    if (entries.play[e] !== at) continue;
    const kind = ENTRY_KINDS[entries.kind[e]!]!;
    sums.set(kind, (sums.get(kind) ?? 0) + entries.outs[e]!);
  }
  return sums;
}

/** Every play adds up, and every kind sums to nothing over the season. */
function expectBalanced(ledger: ClassLedger): void {
  const { entries, plays: grounders } = ledger;
  const sums = new Float64Array(grounders.count);
  const kinds = new Float64Array(ENTRY_KINDS.length);
  for (let e = 0; e < entries.count; e += 1) {
    sums[entries.play[e]!]! += entries.outs[e]!;
    kinds[entries.kind[e]!]! += entries.outs[e]!;
  }
  const off = sums.map((sum, at) => Math.abs(sum - (grounders.closed[at]! - ledger.opening[at]!)));
  expect(Math.max(...off)).toBeLessThan(1e-9);
  for (const sum of kinds) expect(Math.abs(sum)).toBeLessThan(1e-6);
}

const GROUNDS = Array.from({ length: league.plays.count }, (_, row) => row).filter(
  (row) => league.plays.ballKind[row] === 0 && league.plays.gatheredBy[row]! > 0 && league.plays.gatheredBy[row]! < 7,
);
const [unseen, resultOnly, timeless, speedless, lineless, placeless] = GROUNDS.slice(40) as [
  number,
  number,
  number,
  number,
  number,
  number,
];

describe('a book with holes (method.md 9)', () => {
  const ledger = score(
    without((table, row) => {
      if (row === unseen) table.startXFt[row * 9 + 5] = Number.NaN;
      if (row === resultOnly) [table.gatherSeen[row], table.gatheredBy[row]] = [0, 0];
      if (row === timeless) table.gatherTimeS[row] = Number.NaN;
      if (row === speedless) table.exitSpeedMph[row] = Number.NaN;
      if (row === lineless) table.bearingDeg[row] = Number.NaN;
      if (row === placeless) table.gatherXFt[row] = Number.NaN;
    }),
  );
  const at = (row: number) => ledger.plays.row.indexOf(row);

  it('balances', () => {
    expectBalanced(ledger);
  });

  it.each([
    ['a start not seen', unseen, 'no_starts'],
    ['no speed', speedless, 'no_speed'],
    ['no bearing', lineless, 'no_bearing'],
  ])('books ground and finish for %s', (_, row, flag) => {
    const play = at(row);
    expect(GRADES[ledger.grade[play]!]).toBe('ground');
    expect(flagText(ledger.flags[play]!).split(' ')).toContain(flag);
    const kinds = kindsOf(ledger, play);
    expect([...kinds.keys()].sort()).toEqual(['finish', 'ground']);
    expect(kinds.get('ground')).toBeCloseTo(ledger.gathered[play]! - ledger.opening[play]!, 12);
    expect(kinds.get('finish')).toBeCloseTo(ledger.plays.closed[play]! - ledger.gathered[play]!, 12);
    expect(ledger.set[play]).toBeNaN();
  });

  it('books one kind, whole, where only the result is known', () => {
    const play = at(resultOnly);
    expect(GRADES[ledger.grade[play]!]).toBe('whole');
    const kinds = kindsOf(ledger, play);
    expect([...kinds.keys()]).toEqual(['whole']);
    expect(kinds.get('whole')).toBeCloseTo(ledger.plays.closed[play]! - ledger.opening[play]!, 12);
    expect(ledger.set[play]).toBeNaN();
    expect(ledger.gathered[play]).toBeNaN();
  });

  it.each([
    ['time', timeless, 'no_gather_time'],
    ['place', placeless, 'no_gather_place'],
  ])('keeps a play without a gather %s full, and flags it', (_, row, flag) => {
    const play = at(row);
    expect(GRADES[ledger.grade[play]!]).toBe('full');
    expect(flagText(ledger.flags[play]!).split(' ')).toContain(flag);
    expect(ledger.gathered[play]).toBeGreaterThan(0);
    expect(kindsOf(ledger, play).has('reach')).toBe(true);
  });

  it('shares an undivided entry by the average chances: most to those whom the ball came near', () => {
    const play = at(unseen);
    const shares = new Float64Array(7);
    for (let e = 0; e < ledger.entries.count; e += 1) {
      if (ledger.entries.play[e] === play && ENTRY_KINDS[ledger.entries.kind[e]!] === 'ground')
        shares[ledger.entries.position[e]!] = ledger.entries.outs[e]!;
    }
    const total = shares.reduce((a, b) => a + b);
    for (const share of shares) expect(share / total).toBeGreaterThanOrEqual(0);
    expect(Math.max(...shares.map((share) => share / total))).toBeGreaterThan(0.3);
  });
});

describe('books that lack a whole column', () => {
  it('with no starts at all has its opening from the direct fit, ground and whole entries, and balances', () => {
    const ledger = score(
      without((table, row) => {
        for (let k = 0; k < 9; k += 1) table.startXFt[row * 9 + k] = Number.NaN;
      }),
    );
    expectBalanced(ledger);
    expect(new Set(Array.from(ledger.grade, (grade) => GRADES[grade]))).toEqual(new Set(['ground', 'whole']));
    const kinds = new Set(
      Array.from(ledger.entries.kind.subarray(0, ledger.entries.count), (kind) => ENTRY_KINDS[kind]),
    );
    expect(kinds).toEqual(new Set(['ground', 'whole', 'finish']));
    // The direct fit is shifted once a grade and season: on the logit scale the difference is one number.
    const logit = (p: number) => Math.log(p / (1 - p));
    const shifts = Array.from(ledger.grade.keys())
      .filter((at) => GRADES[ledger.grade[at]!] === 'ground')
      .map((at) => logit(ledger.opening[at]!) - logit(ledger.openingDirect[at]!));
    expect(Math.max(...shifts) - Math.min(...shifts)).toBeLessThan(1e-6);
  });

  it('with no gather times uses the plain rule of travel and still balances', () => {
    const table = without((draft, row) => {
      draft.gatherTimeS[row] = Number.NaN;
    });
    const ledger = score(table, (models) => expect(models.travel.fitted).toBeNull());
    expectBalanced(ledger);
  });

  it('with no speeds has nothing to place a man by, and balances', () => {
    const ledger = score(
      without((table, row) => {
        table.exitSpeedMph[row] = Number.NaN;
      }),
    );
    expectBalanced(ledger);
    expect(ledger.grade.every((grade) => GRADES[grade] !== 'full')).toBe(true);
  });

  it('pays nobody for plays of grade whole when all of them were outs', () => {
    const ledger = score(
      without((table, row) => {
        if (table.outsMade[row] === 0) table.gatherSeen[row] = 1;
        else if (row % 9 === 0) [table.gatherSeen[row], table.gatheredBy[row]] = [0, 0];
      }),
    );
    expectBalanced(ledger);
    const whole = Array.from(ledger.grade.keys()).filter((at) => GRADES[ledger.grade[at]!] === 'whole');
    expect(whole.length).toBeGreaterThan(20);
    expect(whole.every((at) => ledger.plays.closed[at] === 1)).toBe(true);
    for (const at of whole) {
      for (const outs of kindsOf(ledger, at).values()) expect(Math.abs(outs)).toBeLessThan(1e-9);
    }
  });

  it('with sixty grounders is scored without a complaint and balances', () => {
    const small = without(() => {}, 140);
    const grounders = selectGrounders(small);
    expect(grounders.count).toBeGreaterThan(50);
    expect(grounders.count).toBeLessThan(75);
    expectBalanced(score(small));
  });

  it.each([1, 5])('with %i plays does not fall over', (count) => {
    const rows = new Set(GROUNDS.slice(0, count));
    const few = without((table, row) => {
      if (!rows.has(row)) table.ballKind[row] = 4;
    });
    const ledger = score(few);
    expect(ledger.plays.count).toBe(count);
    for (let at = 0; at < count; at += 1) expect(Number.isFinite(ledger.opening[at])).toBe(true);
  });
});
