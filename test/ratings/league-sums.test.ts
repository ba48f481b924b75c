import { beforeAll, describe, expect, it } from 'vitest';
import { predictDirectOpening } from '../../src/chances/direct-opening.ts';
import { finishChances } from '../../src/chances/finish-model.ts';
import { FULL } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { PLACEMENT } from '../../src/ledger/entry-kinds.ts';
import type { FielderRow } from '../../src/ledger/fielder-rows.ts';
import { scorePlays } from '../../src/ledger/score-plays.ts';
import { netOf, sumFielders, sumTeams } from '../../src/ledger/season-totals.ts';
import { SILENT } from '../../src/progress.ts';
import { collectGameCells, type GameCells, mergeRows } from '../../src/ratings/game-cells.ts';
import { drawPoissonWeights } from '../../src/ratings/poisson-weights.ts';
import { estimateRoom } from '../../src/ratings/room-to-gain.ts';
import { DEMO_DRAWS, type ScoredLeague, scoreLeague } from '../helpers/scored-league.ts';

let scored: ScoredLeague;
let ledger: ClassLedger;
beforeAll(() => {
  scored = scoreLeague({ seasons: 2, teams: 4, seed: 5, ballsPerSeason: 600 });
  ledger = scored.ledger;
});

const sum = (column: Float64Array, from: number, to: number) =>
  column.subarray(from, to).reduce((all, x) => all + x, 0);

describe('game sums of a league', () => {
  let cells: GameCells<FielderRow>;
  beforeAll(() => {
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

describe('room to gain', () => {
  /** Placement by play and man, as room is laid out. */
  let placement: Float64Array;
  beforeAll(() => {
    const { entries, plays } = ledger;
    placement = new Float64Array(ledger.room.length);
    for (let e = 0; e < entries.count; e += 1) {
      if (entries.kind[e] === PLACEMENT)
        placement[entries.play[e] * plays.men + entries.position[e] - 1] = entries.outs[e];
    }
  });

  /** The movable men of each fully recorded play who had any part in its placement. */
  function* partners(count: number): Generator<{ at: number; men: number[] }> {
    const { plays, grade, room } = ledger;
    for (let at = 0; at < plays.count; at += 1) {
      if (grade[at] !== FULL) continue;
      const men = MOVABLE_ON_GROUNDERS.filter(
        (k) => placement[at * plays.men + k] !== 0 || room[at * plays.men + k] !== 0,
      );
      if (men.length === count) yield { at, men };
    }
  }

  it('of one man who alone moves is his placement, turned round', () => {
    const { grounders, models } = scored;
    const alone = scorePlays(
      grounders,
      {
        chances: new GrounderChances(grounders, models),
        movable: [5],
        stakeRuns: new Float64Array(grounders.count).fill(1),
        forecast: {
          direct: predictDirectOpening(models.direct, grounders),
          finish: finishChances(models.finish, grounders),
        },
      },
      DEMO_DRAWS,
      SILENT,
    );
    let seen = 0;
    for (let e = 0; e < alone.entries.count; e += 1) {
      if (alone.entries.kind[e] !== PLACEMENT) continue;
      expect(alone.room[alone.entries.play[e]! * grounders.men + 5]).toBeCloseTo(-alone.entries.outs[e]!, 12);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(300);
  });

  it('of two exceeds what placement charges them by half of what they share, the same half for both', () => {
    let [seen, shared] = [0, 0];
    for (const { at, men } of partners(2)) {
      const [one, two] = men.map((k) => at * ledger.plays.men + k) as [number, number];
      const half = ledger.room[one]! + placement[one]!;
      expect(ledger.room[two]! + placement[two]!).toBeCloseTo(half, 12);
      // Both moved at once: opening less set.
      const both = ledger.opening[at]! - ledger.set[at]!;
      expect(ledger.room[one]! + ledger.room[two]! - both).toBeCloseTo(2 * half, 12);
      if (Math.abs(half) > 1e-3) shared += 1;
      seen += 1;
    }
    expect(seen).toBeGreaterThan(50);
    expect(shared).toBeGreaterThan(10);
  });

  it('is nothing for pitcher and catcher, who do not move', () => {
    const { plays, room } = ledger;
    for (let at = 0; at < plays.count; at += 1) for (const k of [0, 1]) expect(room[at * plays.men + k]).toBe(0);
  });
});
