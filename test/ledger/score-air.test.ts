import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { AIR_MEN, type AirBalls, selectAirBalls } from '../../src/chances/air/air-balls.ts';
import { AirChances } from '../../src/chances/air/air-chances.ts';
import { type AirModels, fitAirModels } from '../../src/chances/air/air-models.ts';
import { fromAirModelsFile, toAirModelsFile } from '../../src/chances/air/air-models-file.ts';
import { WIDEST_SHORT_FT } from '../../src/chances/air/air-rows.ts';
import { chooseEvenDraws } from '../../src/chances/even-draws.ts';
import { FULL, flagBit, GROUND, WHOLE } from '../../src/chances/grades.ts';
import type { PlayTable, PlayTableDraft } from '../../src/chances/play-table.ts';
import { BALL_KINDS, RESULTS } from '../../src/diamond/play-codes.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';
import { LARGEST_SHIFT } from '../../src/ledger/balance.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { ENTRY_KINDS, FINISH, GROUND_ENTRY, PLACEMENT, REACH, WHOLE_ENTRY } from '../../src/ledger/entry-kinds.ts';
import { scoreAir } from '../../src/ledger/score-air.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';
import { heldSmoothing } from '../helpers/held-smoothing.ts';

const FLY = BALL_KINDS.indexOf('fly');
const DRAWS = { draws: 24, window: 'rolling', seed: 3 } as const;

let balls: AirBalls;
let models: AirModels;
let ledger: ClassLedger;

const score = (of: AirBalls, by: AirModels) =>
  scoreAir(
    of,
    by,
    Float64Array.from({ length: of.count }, (_, at) => 0.6 + 0.1 * of.kind[at]!),
    DRAWS,
    SILENT,
  );

beforeAll(() => {
  const league = simulateLeague({ seasons: 2, teams: 4, seed: 7, ballsPerSeason: 4000 });
  const table = spoil(league.plays);
  balls = selectAirBalls(table);
  models = fitAirModels(balls, SILENT, heldSmoothing());
  ledger = score(balls, models);
});

/** Balls that the demo league never lacks or does: no flight, no bearing, nothing at all, an out on the hop. */
function spoil(table: PlayTable): PlayTable {
  const draft = { ...table } as PlayTableDraft;
  draft.landingXFt = table.landingXFt.slice();
  draft.hangTimeS = table.hangTimeS.slice();
  draft.bearingDeg = table.bearingDeg.slice();
  draft.exitSpeedMph = table.exitSpeedMph.slice();
  draft.outsMade = table.outsMade.slice();
  draft.result = table.result.slice();
  for (let row = 0; row < table.count; row += 1) {
    const inAir = table.ballKind[row]! > 0 && table.ballKind[row]! < 4;
    if (!inAir) continue;
    if (row % 41 === 0) draft.landingXFt[row] = Number.NaN;
    if (row % 41 === 0 || row % 37 === 0) draft.hangTimeS[row] = Number.NaN;
    if (row % 82 === 0 || row % 43 === 0) draft.bearingDeg[row] = Number.NaN;
    if (row % 123 === 0) draft.exitSpeedMph[row] = Number.NaN;
    if (row % 11 === 0 && table.gatheredBy[row]! >= 7 && table.outsMade[row] === 0) {
      draft.outsMade[row] = 1;
      draft.result[row] = RESULTS.indexOf('fielders_choice');
    }
  }
  return draft;
}

/** The same plays in another order. */
function reorder(table: PlayTable, order: readonly number[]): PlayTable {
  const entries = Object.entries(table).map(([name, column]) => {
    const each = (column as ArrayLike<unknown>).length / table.count;
    if (name === 'playId') return [name, order.map((row) => table.playId[row])];
    if (!ArrayBuffer.isView(column)) return [name, column];
    const from = column as Float64Array;
    const to = from.slice();
    order.forEach((row, k) => {
      for (let i = 0; i < each; i += 1) to[k * each + i] = from[row * each + i]!;
    });
    return [name, to];
  });
  return Object.fromEntries(entries) as PlayTable;
}

function entriesOf(of: ClassLedger): { outs: Float64Array; runs: Float64Array } {
  const outs = new Float64Array(of.plays.count);
  const runs = new Float64Array(of.plays.count);
  for (let e = 0; e < of.entries.count; e += 1) {
    outs[of.entries.play[e]!] += of.entries.outs[e]!;
    runs[of.entries.play[e]!] += of.entries.runs[e]!;
  }
  return { outs, runs };
}

describe('the ledger of balls in the air', () => {
  it('has balls of every grade, and outs after a hop', () => {
    for (const grade of [FULL, GROUND, WHOLE]) expect(ledger.grade.includes(grade)).toBe(true);
    expect(balls.hopBy.some((by, at) => by > 0 && balls.closed[at] === 1)).toBe(true);
    expect(models.hopRates.some((rate) => rate > 0 && rate < 0.3)).toBe(true);
  });

  it('adds up to closed less opening on every ball, in outs and in runs', () => {
    const { outs, runs } = entriesOf(ledger);
    for (let at = 0; at < balls.count; at += 1) {
      const change = balls.closed[at]! - ledger.opening[at]!;
      expect(Math.abs(outs[at]! - change)).toBeLessThan(1e-9);
      expect(Math.abs(runs[at]! - change * ledger.stakeRuns[at]!)).toBeLessThan(1e-9);
    }
  });

  it('adds up kind by kind to the steps between the marks', () => {
    const sums = ENTRY_KINDS.map(() => new Float64Array(balls.count));
    for (let e = 0; e < ledger.entries.count; e += 1)
      sums[ledger.entries.kind[e]!]![ledger.entries.play[e]!]! += ledger.entries.outs[e]!;
    for (let at = 0; at < balls.count; at += 1) {
      const [opening, set, gathered] = [ledger.opening[at]!, ledger.set[at]!, ledger.gathered[at]!];
      if (ledger.grade[at] === FULL) {
        expect(sums[PLACEMENT]![at]).toBeCloseTo(set - opening, 9);
        expect(sums[REACH]![at]).toBeCloseTo(gathered - set, 9);
      } else if (ledger.grade[at] === GROUND) {
        expect(sums[GROUND_ENTRY]![at]).toBeCloseTo(gathered - opening, 9);
      } else {
        expect(sums[WHOLE_ENTRY]![at]).toBeCloseTo(balls.closed[at]! - opening, 9);
      }
    }
  });

  it('adds up to nothing by season in every kind', () => {
    const sums = new Map<string, number>();
    for (let e = 0; e < ledger.entries.count; e += 1) {
      const key = `${balls.season[ledger.entries.play[e]!]} ${ledger.entries.kind[e]}`;
      sums.set(key, (sums.get(key) ?? 0) + ledger.entries.outs[e]!);
    }
    expect(sums.size).toBeGreaterThanOrEqual(2 * 5);
    for (const sum of sums.values()) expect(Math.abs(sum)).toBeLessThan(1e-6);
  });

  it('pays nobody for balls of grade ground that were all caught, though in some draws nobody was near', () => {
    const { table } = balls;
    const draft = { ...table, startXFt: table.startXFt.slice(), outsMade: table.outsMade.slice() };
    for (let at = 0; at < balls.count; at += 1) {
      const row = balls.row[at]!;
      if (balls.kind[at] !== FLY) continue;
      if (balls.closed[at] === 1 && at % 3 === 0) draft.startXFt[row * 9 + 7] = Number.NaN;
      if (balls.grade[at] === GROUND) draft.outsMade[row] = 1;
    }
    const spoiled = score(selectAirBalls(draft), models);
    const { outs } = entriesOf(spoiled);
    const groups = spoiled.balance.groups.filter(({ kind, grade }) => kind === FLY && grade === GROUND);
    expect(groups).toHaveLength(2);
    for (const group of groups) {
      const plays = Array.from(outs.keys()).filter(
        (at) => spoiled.balance.groups[spoiled.balance.groupOf[at]!] === group,
      );
      expect(plays.length).toBeGreaterThan(20);
      expect(group.opening).toBe(LARGEST_SHIFT);
      for (const at of plays) expect(Math.abs(outs[at]!)).toBeLessThan(1e-9);
    }
  });

  it('has marks between 0 and 1, a catch worth all of an out', () => {
    for (let at = 0; at < balls.count; at += 1) {
      for (const mark of [ledger.opening[at]!, ledger.openingDirect[at]!, ledger.set[at]!, ledger.gathered[at]!]) {
        if (Number.isNaN(mark)) continue;
        expect(mark).toBeGreaterThanOrEqual(0);
        expect(mark).toBeLessThanOrEqual(1);
      }
      expect(Number.isNaN(ledger.openingDirect[at]!)).toBe(false);
      const caught = balls.table.gatheredBy[balls.row[at]!]! > 0;
      if (ledger.grade[at] !== WHOLE && caught) expect(ledger.gathered[at]).toBe(1);
      if (ledger.grade[at] !== WHOLE && !caught && balls.hopBy[at] === 0) expect(ledger.gathered[at]).toBe(0);
    }
  });

  it('gives pitcher and catcher no placement, and nothing to those without a chance', () => {
    const chances = new AirChances(balls, models);
    const { entries } = ledger;
    for (let e = 0; e < entries.count; e += 1) {
      const [at, position, kind] = [entries.play[e]!, entries.position[e]!, entries.kind[e]!];
      if (kind === PLACEMENT) expect(position).toBeGreaterThan(2);
      const inHand = position === balls.table.gatheredBy[balls.row[at]!] || position === balls.hopBy[at];
      if (kind === FINISH) expect(inHand).toBe(true);
      if (kind !== REACH || inHand || position === balls.table.touchedBy[balls.row[at]!]) continue;
      const from = (at * AIR_MEN + position - 1) * 2;
      chances.setBall(at, at);
      chances.standAt(position - 1, balls.starts[from]!, balls.starts[from + 1]!);
      expect(chances.reach).toBeGreaterThan(0);
    }
  });

  it('has chances of exactly 0 beyond the widest run and of more than 0 within it', () => {
    const chances = new AirChances(balls, models);
    let within = 0;
    fc.assert(
      fc.property(
        fc.nat(balls.count - 1),
        fc.nat(8),
        fc.double({ min: -150, max: 150, noNaN: true }),
        fc.double({ min: -150, max: 150, noNaN: true }),
        (at, k, dx, dy) => {
          fc.pre(ledger.grade[at] === FULL);
          chances.setBall(at, at);
          chances.standAt(k, balls.landingXFt[at]! + dx, balls.landingYFt[at]! + dy);
          if (chances.run.shortFt > WIDEST_SHORT_FT) {
            expect(chances.reach).toBe(0);
          } else {
            expect(chances.reach).toBeGreaterThan(0);
            within += 1;
          }
          expect(chances.reach).toBeLessThanOrEqual(1);
          // Whoever gets there keeps it nearly always, and less often at the end of a long run.
          if (chances.reach > 0) expect(chances.promise).toBeGreaterThan(0.1);
          expect(chances.promise).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 500 },
    );
    expect(within).toBeGreaterThan(20);
  });

  it('borrows placements of balls whose flight, line and starts are known, whatever their speed', () => {
    const { source } = chooseEvenDraws(balls, DRAWS);
    const lenders = [...new Set(source)];
    expect(lenders.length).toBeGreaterThan(1000);
    const unfit = flagBit('no_flight') | flagBit('no_bearing') | flagBit('no_starts');
    expect(lenders.filter((lender) => (balls.flags[lender]! & unfit) !== 0)).toEqual([]);
    expect(lenders.some((lender) => (balls.flags[lender]! & flagBit('no_speed')) !== 0)).toBe(true);
  });

  it('gives no chance to a position of which none was ever seen', () => {
    const noneForCatcher = models.reach.map((model, k) =>
      k === 1 ? { ...model, record: { ...model.record, rows: 0 } } : model,
    );
    const without = new AirChances(balls, { ...models, reach: noneForCatcher });
    const chances = new AirChances(balls, models);
    const at = ledger.grade.indexOf(FULL);
    for (const of of [without, chances]) {
      of.setBall(at, at);
      of.standAt(1, balls.landingXFt[at]!, balls.landingYFt[at]!);
    }
    expect(without.reach).toBe(0);
    expect(chances.reach).toBeGreaterThan(0);
  });

  it('does not depend on the order of rows', () => {
    const { table } = balls;
    const random = createRandom(11);
    const order = Array.from({ length: table.count }, (_, row) => row);
    for (let k = order.length - 1; k > 0; k -= 1) {
      const other = random.integer(k + 1);
      [order[k], order[other]] = [order[other]!, order[k]!];
    }
    // The columns that the selection changed are put back as they were: a hop is somebody's again.
    const recorded = { ...table, gatheredBy: table.gatheredBy.slice(), touchedBy: table.touchedBy.slice() };
    for (let at = 0; at < balls.count; at += 1) {
      if (balls.hopBy[at]! > 0) recorded.gatheredBy[balls.row[at]!] = balls.hopBy[at]!;
    }
    const moved = selectAirBalls(reorder(recorded, order));
    const again = score(moved, models);
    const marks = new Map<string, number[]>();
    const sums = entriesOf(ledger);
    for (let at = 0; at < balls.count; at += 1)
      marks.set(table.playId[balls.row[at]!]!, [ledger.opening[at]!, ledger.set[at]!, sums.outs[at]!]);
    const sumsAgain = entriesOf(again);
    for (let at = 0; at < moved.count; at += 1) {
      const [opening, set, outs] = marks.get(moved.table.playId[moved.row[at]!]!)!;
      expect(Math.abs(again.opening[at]! - opening!)).toBeLessThan(1e-9);
      if (!Number.isNaN(set!)) expect(Math.abs(again.set[at]! - set!)).toBeLessThan(1e-9);
      expect(Math.abs(sumsAgain.outs[at]! - outs!)).toBeLessThan(1e-9);
    }
  });

  it('comes out the same from models that went through a file', () => {
    const again = score(balls, fromAirModelsFile(JSON.parse(JSON.stringify(toAirModelsFile(models)))));
    expect(again.opening).toEqual(ledger.opening);
    expect(again.set).toEqual(ledger.set);
    expect(again.entries.outs).toEqual(ledger.entries.outs);
  });
});
