import { beforeAll, describe, expect, it } from 'vitest';
import { FULL } from '../../src/chances/grades.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { PLACEMENT } from '../../src/ledger/entry-kinds.ts';
import { netOf, sumFielders, sumTeams } from '../../src/ledger/season-totals.ts';
import { collectGameCells, type FielderRow, type GameCells, mergeRows } from '../../src/ratings/game-cells.ts';
import { drawPoissonWeights } from '../../src/ratings/poisson-weights.ts';
import { estimateChanceRates } from '../../src/ratings/rates.ts';
import { estimateRoom } from '../../src/ratings/room-to-gain.ts';
import { estimateTotalErrors } from '../../src/ratings/total-errors.ts';
import { scoreLeague } from '../helpers/scored-league.ts';
import { inventCells } from './invented-cells.ts';

const sum = (column: Float64Array, from: number, to: number) =>
  column.subarray(from, to).reduce((all, x) => all + x, 0);

describe('game sums of a league', () => {
  let ledger: ClassLedger;
  let cells: GameCells<FielderRow>;
  beforeAll(() => {
    ({ ledger } = scoreLeague({ seasons: 2, teams: 4, seed: 5, ballsPerSeason: 500 }));
    cells = collectGameCells([ledger]);
  });

  it('add up to the totals of every man', () => {
    const totals = sumFielders([ledger]);
    expect(cells.rows).toHaveLength(totals.length);
    const keyOf = ({ season, fielder, position, team }: FielderRow) => `${season} ${fielder} ${position} ${team}`;
    const byKey = new Map(totals.map((total) => [keyOf(total), total]));
    cells.rows.forEach((row, r) => {
      const [from, to] = [cells.start[r]!, cells.start[r + 1]!];
      const total = byKey.get(keyOf(row))!;
      expect(sum(cells.plays, from, to)).toBe(total.plays);
      expect(sum(cells.chances, from, to)).toBeCloseTo(total.chances, 9);
      cells.runs.forEach((column, kind) => {
        expect(sum(column, from, to)).toBeCloseTo(total.runs[kind]!, 9);
      });
      // Each game once, in order.
      for (let cell = from + 1; cell < to; cell += 1) expect(cells.game[cell]!).toBeGreaterThan(cells.game[cell - 1]!);
    });
  });

  it("add up to a club's when its men are merged, and to a career's when a man's seasons are", () => {
    const clubs = mergeRows(
      cells,
      ({ season, team }) => `${season} ${team}`,
      ({ season, team }) => ({ season, team }),
    );
    for (const total of sumTeams([ledger])) {
      const r = clubs.rows.findIndex(({ season, team }) => season === total.season && team === total.team);
      const net = clubs.runs.reduce((all, column) => all + sum(column, clubs.start[r]!, clubs.start[r + 1]!), 0);
      expect(net).toBeCloseTo(netOf(total.runs), 9);
    }
    const careers = mergeRows(
      cells,
      ({ fielder, position }) => `${fielder} ${position}`,
      (row) => row,
    );
    expect(careers.rows.length).toBeLessThan(cells.rows.length);
    expect(careers.game.length).toBe(cells.game.length);
  });

  it("leave room to gain that is a club's placement turned round, and that of its men by themselves", () => {
    const weights = drawPoissonWeights(ledger.plays.table.games, 200, 1);
    const room = estimateRoom(cells, weights);
    const clubs = room.filter(({ fielder }) => fielder === null);
    expect(clubs).toHaveLength(8);
    for (const club of clubs) {
      const total = sumTeams([ledger]).find(({ season, team }) => season === club.season && team === club.team)!;
      expect(club.gainOuts).toBeCloseTo(-total.outs[PLACEMENT]!, 9);
      expect(club.gainRuns).toBeCloseTo(-total.runs[PLACEMENT]!, 9);
      expect(club.plays).toBe(total.gradePlays[FULL]);
      expect(club.lo80).toBeLessThan(club.gainRuns);
      expect(club.hi80).toBeGreaterThan(club.gainRuns);
    }
    const all = ledger.room.reduce((total, value) => total + value, 0);
    const men = room.filter(({ fielder }) => fielder !== null);
    expect(men.reduce((total, { gainOuts }) => total + gainOuts, 0)).toBeCloseTo(all, 6);
    expect(new Set(men.map(({ position }) => position))).toEqual(new Set([3, 4, 5, 6]));
    for (let k = 1; k < room.length; k += 1) expect(room[k]!.gainRuns).toBeLessThanOrEqual(room[k - 1]!.gainRuns);
  });
});

describe('rates a chance', () => {
  it('are sums over sums, with the standard error of a ratio', () => {
    const n = 200;
    const own = Array.from({ length: n }, (_, game) => ({
      game,
      chances: 1 + (game % 3),
      reach: 0.1 * (1 + (game % 3)) + (game % 2 === 0 ? 0.4 : -0.4),
    }));
    const cells = inventCells([['man', own]]);
    const weights = drawPoissonWeights(
      own.map(({ game }) => `g${game}`),
      3000,
      2,
    );
    const [rates] = estimateChanceRates(cells, weights);
    const chances = own.reduce((all, game) => all + game.chances, 0);
    const total = own.reduce((all, game) => all + game.reach, 0);
    const rate = total / chances;
    expect(rates!.net.value).toBeCloseTo(100 * rate, 9);
    // Linearised: residuals from the rate, over the chances.
    const squares = own.reduce((all, game) => all + (game.reach - rate * game.chances) ** 2, 0);
    expect(Math.abs(rates!.net.se / ((100 * Math.sqrt(squares)) / chances) - 1)).toBeLessThan(0.05);
    expect(estimateChanceRates(cells, null)[0]!.net).toEqual({ value: rates!.net.value, se: Number.NaN });
  });

  it('are empty where there are few chances or games', () => {
    const few = inventCells([['man', [{ game: 0, chances: 30, reach: 1 }]]]);
    expect(estimateChanceRates(few, null)[0]!.net.value).toBeNaN();
  });
});

describe('errors of a club', () => {
  it('know that its men play the same games', () => {
    const games = Array.from({ length: 60 }, (_, game) => game);
    const up = games.map((game) => ({ game, reach: game % 2 === 0 ? 1 : -1 }));
    const down = games.map((game) => ({ game, reach: game % 2 === 0 ? -1 : 1 }));
    const weights = drawPoissonWeights(games.map(String), 400, 1);
    const both = mergeRows(
      inventCells([
        ['one', up],
        ['other', down],
      ]),
      () => 'club',
      () => 'club',
    );
    expect(estimateTotalErrors(both, weights)[0]!.net).toBeCloseTo(0, 12);
  });
});
