import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { chanceFit } from '../../src/chances/fit-chance.ts';
import { WHOLE } from '../../src/chances/grades.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { allocatePlayTable, type PlayTable } from '../../src/chances/play-table.ts';
import { type TurnModel, turnFits } from '../../src/chances/turn-model.ts';
import { selectTurnPlays } from '../../src/chances/turn-plays.ts';
import { ON_FIRST } from '../../src/diamond/play-codes.ts';
import { REACH, TURN } from '../../src/ledger/entry-kinds.ts';
import { EntryList } from '../../src/ledger/entry-list.ts';
import { addTurns } from '../../src/ledger/turn-entries.ts';
import { FLAT_TURN_STAKE_RUNS } from '../../src/ledger/turn-stake.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { inventedPlays } from '../helpers/invented-plays.ts';

/** The flat stake for each of so many grounders. */
const flatStake = (count: number) => new Float64Array(count).fill(FLAT_TURN_STAKE_RUNS);

/** A model that says the same of every play. */
function constantModel(gathered: number, thrown: number): TurnModel {
  const level = (chance: number) => {
    const data = { count: 1, covariates: {}, response: [chance] };
    return fitHere(chanceFit('constant', [], () => data));
  };
  return { gathered: [0, 1, 2].map(() => level(gathered)), thrown: [0, 1, 2].map(() => level(thrown)) };
}

/** One grounder a row: who gathered, code of the throw, outs made. All with a runner on first and nobody out. */
function tableOf(plays: readonly (readonly [gatheredBy: number, throwTo: number, outsMade: number])[]): PlayTable {
  const table = allocatePlayTable(plays.length);
  plays.forEach(([gatheredBy, throwTo, outsMade], row) => {
    table.season[row] = 2031;
    table.bases[row] = ON_FIRST;
    table.gatheredBy[row] = gatheredBy;
    table.throwTo[row] = throwTo;
    table.outsMade[row] = outsMade;
  });
  return table;
}

function entriesOf({ count, play, position, outs, runs, kind }: EntryList) {
  return Array.from({ length: count }, (_, e) => ({
    play: play[e]!,
    position: position[e]!,
    kind: kind[e]!,
    outs: outs[e]!,
    runs: runs[e]!,
  }));
}

describe('turn entries', () => {
  it('come out as by hand on four plays', () => {
    // Two of four were turned: P = 1/2 after balancing. Three were thrown to a pivot and two of them turned: T = 2/3.
    const grounders = selectGrounders(
      tableOf([
        [6, 2, 2],
        [6, 2, 1],
        [4, 1, 1],
        [5, 2, 2],
      ]),
    );
    const entries = new EntryList(16);
    const [balance] = addTurns({ entries }, grounders, constantModel(0.3, 0.9), new Float64Array(4).fill(0.5));
    const expected: [number, number, number][] = [
      [0, 6, 1 / 3],
      [0, 4, 1 / 6],
      [1, 6, -1 / 6],
      [1, 4, -1 / 3],
      [2, 4, -1 / 2],
      [3, 5, 1 / 3],
      [3, 4, 1 / 6],
    ];
    const seen = entriesOf(entries);
    expect(seen.map(({ play, position }) => [play, position])).toEqual(expected.map(([play, who]) => [play, who]));
    seen.forEach(({ outs, runs, kind }, e) => {
      expect(outs).toBeCloseTo(expected[e]![2], 9);
      expect(runs).toBeCloseTo(0.5 * expected[e]![2], 9);
      expect(kind).toBe(TURN);
    });
    expect(balance).toMatchObject({ season: 2031, plays: 4, made: 2 });
    // The shift from 0.3 to 1/2 is the logit of 0.7, and from 0.9 to 2/3 it is log 2 - log 9.
    expect(balance!.gathered).toBeCloseTo(Math.log(0.7 / 0.3), 5);
    expect(balance!.thrown).toBeCloseTo(Math.log(2 / 9), 5);
  });

  it('pay nothing in a season in which none was turned, and none where all were', () => {
    for (const outsMade of [1, 2]) {
      const grounders = selectGrounders(tableOf(Array.from({ length: 5 }, () => [6, 2, outsMade] as const)));
      const entries = new EntryList(16);
      addTurns({ entries }, grounders, constantModel(0.4, 0.6), flatStake(grounders.count));
      for (const { outs } of entriesOf(entries)) expect(Math.abs(outs)).toBeLessThan(1e-11);
    }
  });

  it('are none without a single play on which a second out was possible', () => {
    const table = { ...tableOf([[6, 2, 1]]), bases: new Uint8Array(1) };
    const grounders = selectGrounders(table);
    const entries = new EntryList(16);
    expect(addTurns({ entries }, grounders, fitHere(turnFits(grounders)), flatStake(grounders.count))).toEqual([]);
    expect(entries.count).toBe(0);
  });
});

describe('laws of the turn', () => {
  let model: TurnModel;
  beforeAll(() => {
    model = fitHere(turnFits(selectGrounders(inventedPlays(6000, 5))));
  });

  function turnsOf(seed: number) {
    const grounders = selectGrounders(inventedPlays(1500, seed));
    const entries = new EntryList(16);
    entries.add(0, 6, REACH, 0.25, 0.75);
    const stake = Float64Array.from({ length: grounders.count }, (_, at) => 0.2 + (at % 7) / 10);
    const balance = addTurns({ entries }, grounders, model, stake);
    return { grounders, stake, balance, plays: selectTurnPlays(grounders), all: entriesOf(entries) };
  }

  const seeds = fc.integer({ min: 1, max: 1_000_000 });
  const possible = ({ table, row, grade }: Grounders, at: number) => {
    const r = row[at]!;
    const infielder = table.gatheredBy[r]! >= 1 && table.gatheredBy[r]! <= 6;
    return (table.bases[r]! & ON_FIRST) !== 0 && table.outsBefore[r]! < 2 && infielder && grade[at] !== WHOLE;
  };

  it('starters and pivots each add up to zero over a season, outs and the balance rows, too', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { grounders, balance, plays, all } = turnsOf(seed);
        const starter = new Map(Array.from(plays.at, (at, k) => [at, plays.starter[k]]));
        for (const row of balance) {
          const own = all.filter(({ play, kind }) => kind === TURN && grounders.season[play] === row.season);
          const sum = (entries: typeof own) => entries.reduce((total, { outs }) => total + outs, 0);
          expect(Math.abs(sum(own.filter(({ play, position }) => position === starter.get(play))))).toBeLessThan(1e-9);
          expect(Math.abs(sum(own.filter(({ play, position }) => position !== starter.get(play))))).toBeLessThan(1e-9);
          expect(row.totalOuts).toBeCloseTo(sum(own), 12);
          expect(row.totalRuns).toBeCloseTo(
            own.reduce((total, { runs }) => total + runs, 0),
            12,
          );
        }
      }),
      { numRuns: 25 },
    );
  });

  it('only who gathered and one other man get anything, only where a second out was possible, and in runs by the stake', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { grounders, stake, plays, all } = turnsOf(seed);
        const number = new Map(Array.from(plays.at, (at, k) => [at, k]));
        expect(all[0]).toMatchObject({ play: 0, position: 6, kind: REACH, outs: 0.25 });
        for (const { play, position, outs, runs, kind } of all.slice(1)) {
          expect(kind).toBe(TURN);
          expect(possible(grounders, play)).toBe(true);
          const k = number.get(play)!;
          expect([plays.starter[k], plays.pivot[k]]).toContain(position);
          expect(runs).toBe(outs * stake[play]!);
        }
        for (let at = 0; at < grounders.count; at += 1) expect(number.has(at)).toBe(possible(grounders, at));
      }),
      { numRuns: 25 },
    );
  });

  it('a play adds up to the second out made minus a chance: positive when it was made, negative when not', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { plays, all } = turnsOf(seed);
        const total = new Map<number, number>();
        for (const { play, outs } of all.slice(1)) total.set(play, (total.get(play) ?? 0) + outs);
        plays.at.forEach((at, k) => {
          const chance = plays.made[k]! - total.get(at)!;
          expect(chance).toBeGreaterThan(0);
          expect(chance).toBeLessThan(1);
        });
      }),
      { numRuns: 25 },
    );
  });
});
