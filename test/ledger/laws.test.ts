import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { BallGame } from '../../src/chances/ball-game.ts';
import { spareS, throwFromLineFt, turnS } from '../../src/chances/chance-order.ts';
import { chooseEvenDraws, type EvenDraws } from '../../src/chances/even-draws.ts';
import { FULL, WHOLE } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import { INFIELD_SIZE, selectGrounders } from '../../src/chances/grounders.ts';
import { InfieldChances } from '../../src/chances/infield-chances.ts';
import type { PlayTable } from '../../src/chances/play-table.ts';
import { alongLineFt } from '../../src/diamond/ball-line.ts';
import { LARGEST_SHIFT } from '../../src/ledger/balance.ts';
import { dissectPlay } from '../../src/ledger/dissect-play.ts';
import { ENTRY_KINDS, FINISH, PLACEMENT, REACH } from '../../src/ledger/entry-kinds.ts';
import { scoreGrounders } from '../../src/ledger/score-grounders.ts';
import { netOf, sumFielders, sumTeams } from '../../src/ledger/season-totals.ts';
import { shapleyInto } from '../../src/ledger/shapley.ts';
import { predictMean } from '../../src/models/fitted-model.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';
import { DEMO_DRAWS, type ScoredLeague, scoreLeague } from '../helpers/scored-league.ts';

let scored: ScoredLeague;
let draws: EvenDraws;
let game: BallGame;
let full: number[];

beforeAll(() => {
  scored = scoreLeague({ seasons: 2, teams: 4, seed: 11, ballsPerSeason: 1800 });
  draws = chooseEvenDraws(scored.grounders, DEMO_DRAWS);
  game = new BallGame(
    scored.grounders,
    new GrounderChances(scored.grounders, scored.models),
    draws,
    MOVABLE_ON_GROUNDERS,
  );
  full = Array.from(scored.ledger.grade.keys()).filter((at) => scored.ledger.grade[at] === FULL);
});

/** Entries of each play: position, kind, outs. */
function entriesByPlay(): { position: number; kind: number; outs: number }[][] {
  const { entries, plays: grounders } = scored.ledger;
  const lists: { position: number; kind: number; outs: number }[][] = Array.from({ length: grounders.count }, () => []);
  for (let e = 0; e < entries.count; e += 1) {
    lists[entries.play[e]!]!.push({ position: entries.position[e]!, kind: entries.kind[e]!, outs: entries.outs[e]! });
  }
  return lists;
}

const sumOf = (list: readonly { kind: number; outs: number }[], kind?: number) =>
  list.reduce((sum, entry) => sum + (kind === undefined || entry.kind === kind ? entry.outs : 0), 0);

describe('the ledger by its laws (method.md 6 and 7)', () => {
  it('adds up on every play: all entries to closed - opening, each kind to its step', () => {
    const { ledger } = scored;
    entriesByPlay().forEach((list, at) => {
      const closed = ledger.plays.closed[at]!;
      expect(Math.abs(sumOf(list) - (closed - ledger.opening[at]!))).toBeLessThan(1e-9);
      if (ledger.grade[at] !== FULL) return;
      expect(Math.abs(sumOf(list, PLACEMENT) - (ledger.set[at]! - ledger.opening[at]!))).toBeLessThan(1e-9);
      expect(Math.abs(sumOf(list, REACH) - (ledger.gathered[at]! - ledger.set[at]!))).toBeLessThan(1e-9);
      expect(Math.abs(sumOf(list, FINISH) - (closed - ledger.gathered[at]!))).toBeLessThan(1e-9);
    });
  });

  it('sums each kind to nothing over each season and grade', () => {
    const { ledger, grounders } = scored;
    const sums = new Map<string, number>();
    entriesByPlay().forEach((list, at) => {
      for (const { kind, outs } of list) {
        const key = `${grounders.season[at]} grade ${ledger.grade[at]} ${ENTRY_KINDS[kind]}`;
        sums.set(key, (sums.get(key) ?? 0) + outs);
      }
    });
    // Six kinds by grade in each season, but for a grade in which everybody was out: there nobody is paid (decision 004).
    const unpaid = ledger.balance.groups.filter(({ opening }) => opening === LARGEST_SHIFT);
    expect(unpaid.map(({ grade }) => grade)).toEqual([WHOLE]);
    expect(sums.size).toBe(12 - unpaid.length);
    for (const [key, sum] of sums) expect(Math.abs(sum), key).toBeLessThan(1e-6);
  });

  it('keeps every mark between 0 and 1', () => {
    const { opening, set, gathered, openingDirect } = scored.ledger;
    for (const marks of [opening, set, gathered, openingDirect]) {
      for (const mark of marks) expect(Number.isNaN(mark) || (mark >= 0 && mark <= 1)).toBe(true);
    }
  });

  it('has no entry for whoever is not involved', () => {
    const { grounders, ledger } = scored;
    const { table } = grounders;
    const lists = entriesByPlay();
    const faults: string[] = [];
    let idle = 0;
    for (const at of full) {
      const row = grounders.row[at]!;
      game.setActual(at);
      const order = Array.from(game.chanceOrder);
      const last = (table.gatheredBy[row] || table.touchedBy[row]!) - 1;
      const after = last >= 0 && last < INFIELD_SIZE ? order.slice(order.indexOf(last) + 1) : [];
      const actual = Array.from(game.reach);
      game.playCoalitions(at);
      const everInvolved = new Set(game.players.subarray(0, game.playerCount));
      for (const { position, kind } of lists[at]!) {
        const k = position - 1;
        if (position <= 2 && kind === PLACEMENT) faults.push(`${at}: placement for ${position}`);
        if (kind === PLACEMENT && !everInvolved.has(k)) faults.push(`${at}: placement for ${position}, never near`);
        if (kind === REACH && after.includes(k)) faults.push(`${at}: reach for ${position}, after the gather`);
        if (kind === REACH && k < INFIELD_SIZE && actual[k] === 0 && k !== last) faults.push(`${at}: reach, no chance`);
        if (kind === FINISH && position !== table.gatheredBy[row]) faults.push(`${at}: finish for ${position}`);
        if (position > 6 && position !== table.gatheredBy[row]) faults.push(`${at}: outfielder ${position}`);
      }
      const paid = new Set(lists[at]!.map(({ position }) => position - 1));
      for (let k = 0; k < INFIELD_SIZE; k += 1) if (!paid.has(k)) idle += 1;
    }
    expect(faults).toEqual([]);
    // Uninvolved men are the rule: the law above is not empty.
    expect(idle).toBeGreaterThan(full.length);
    expect(ledger.chance.length).toBe(grounders.count * INFIELD_SIZE);
  });

  it('changes nothing but the order when rows are swapped', () => {
    const { league, models } = scored;
    const random = createRandom(3);
    const order = Array.from({ length: league.plays.count }, (_, row) => row);
    for (let i = order.length - 1; i > 0; i -= 1) {
      const j = random.integer(i + 1);
      [order[i], order[j]] = [order[j]!, order[i]!];
    }
    const shuffled = scoreGrounders(selectGrounders(permute(league.plays, order)), models, DEMO_DRAWS, SILENT);
    const at = new Map(Array.from(scored.grounders.row, (row, k) => [league.plays.playId[row]!, k]));
    for (let k = 0; k < shuffled.plays.count; k += 1) {
      const same = at.get(shuffled.plays.table.playId[shuffled.plays.row[k]!]!)!;
      expect(Math.abs(shuffled.opening[k]! - scored.ledger.opening[same]!)).toBeLessThan(1e-9);
      expect(shuffled.grade[k]).toBe(scored.ledger.grade[same]);
      expect(shuffled.flags[k]).toBe(scored.ledger.flags[same]);
      if (shuffled.grade[k] === FULL) expect(Math.abs(shuffled.set[k]! - scored.ledger.set[same]!)).toBeLessThan(1e-9);
    }
    const totals = (ledger: typeof shuffled) =>
      new Map(
        sumFielders([ledger]).map(({ season, fielder, position, team, outs }) => [
          `${season} ${fielder} ${position} ${team}`,
          Array.from(outs),
        ]),
      );
    const [before, after] = [totals(scored.ledger), totals(shuffled)];
    expect(new Set(after.keys())).toEqual(new Set(before.keys()));
    for (const [key, outs] of after) {
      outs.forEach((value, kind) => {
        expect(Math.abs(value - before.get(key)![kind]!), key).toBeLessThan(1e-8);
      });
    }
  });
});

/** The same plays in another order. */
function permute(plays: PlayTable, order: readonly number[]): PlayTable {
  const names = new Set(['games', 'parks', 'teams', 'people']);
  const turned = Object.entries(plays).map(([name, column]) => {
    if (typeof column === 'number' || names.has(name)) return [name, column];
    const width = column.length / plays.count;
    const copy = column.slice();
    order.forEach((from, to) => {
      for (let k = 0; k < width; k += 1) copy[to * width + k] = column[from * width + k];
    });
    return [name, copy];
  });
  return Object.fromEntries(turned) as PlayTable;
}

describe('the ball game (method.md 4 to 6)', () => {
  it('is quick and says what the models say', () => {
    const { grounders, models } = scored;
    const chances = new InfieldChances(models);
    const spareOf = (at: number, from: number, arrival: number) => {
      const { sinBearing, cosBearing, starts, batterToFirstS } = grounders;
      const throwFt = throwFromLineFt(sinBearing[at]!, cosBearing[at]!, starts[from]!, starts[from + 1]!);
      return spareS(batterToFirstS[at]!, arrival, throwFt);
    };
    for (const at of full.slice(0, 60)) {
      chances.setBall({
        sinBearing: grounders.sinBearing[at]!,
        cosBearing: grounders.cosBearing[at]!,
        exitSpeedMph: grounders.exitSpeedMph[at]!,
        launchAngleDeg: grounders.launchAngleDeg[at]!,
        surface: grounders.surface[at]!,
        batterToFirstS: grounders.batterToFirstS[at]!,
        state: grounders.state[at]!,
      });
      for (let k = 0; k < INFIELD_SIZE; k += 1) {
        const from = (at * INFIELD_SIZE + k) * 2;
        chances.standAt(k, grounders.starts[from]!, grounders.starts[from + 1]!);
        if (Math.abs(chances.gap) > 60) {
          expect([chances.reach, chances.promise]).toEqual([0, 0]);
          continue;
        }
        const covariates = {
          gap: [chances.gap],
          arrival: [chances.arrival],
          spare: [spareOf(at, from, chances.arrival)],
          speed: [grounders.exitSpeedMph[at]!],
          launch: [grounders.launchAngleDeg[at]!],
          surface: [grounders.surface[at]!],
          state: [grounders.state[at]!],
        };
        expect(chances.reach).toBeCloseTo(predictMean(models.positions[k]!.reach, covariates, 1)[0]!, 10);
        expect(chances.promise).toBeCloseTo(predictMean(models.positions[k]!.promise, covariates, 1)[0]!, 10);
      }
    }
  });

  it('plays every coalition as a placement of its own', () => {
    const { grounders, models } = scored;
    const chances = new GrounderChances(grounders, models);
    const lone = new BallGame(grounders, chances, draws, MOVABLE_ON_GROUNDERS);
    const opening = new Float64Array(draws.draws);
    for (const at of full.filter((_, k) => k % 97 === 0)) {
      game.setActual(at);
      game.playCoalitions(at);
      lone.playOpening(at, opening, 0, new Float64Array(INFIELD_SIZE), 0);
      const actual = game.value[0]!;
      const coalitions = 1 << game.playerCount;
      for (let d = 0; d < draws.draws; d += 1) {
        const values = game.coalitionValue.subarray(d * coalitions, (d + 1) * coalitions);
        expect(values[0]).toBeCloseTo(opening[d]!, 12);
        expect(values[coalitions - 1]).toBeCloseTo(actual, 12);
      }
      // Any coalition, by the definition: order by arrival, then V_k = h_k c_k + (1 - h_k) V_{k+1}.
      chances.setBall(at, at);
      for (const [d, wanted] of [
        [0, 5],
        [7, 10],
        [23, 9],
      ] as const) {
        const coalition = wanted % coalitions;
        const lender = draws.source[at * draws.draws + d]!;
        const men = Array.from({ length: INFIELD_SIZE }, (_, k) => {
          const bit = game.players.subarray(0, game.playerCount).indexOf(k);
          const of = bit < 0 || (coalition >> bit) & 1 ? at : lender;
          const from = (of * INFIELD_SIZE + k) * 2;
          chances.standAt(k, grounders.starts[from]!, grounders.starts[from + 1]!);
          return { k, arrival: chances.turn, h: chances.reach, c: chances.promise };
        });
        men.sort((a, b) => a.arrival - b.arrival || a.k - b.k);
        const value = men.reduceRight((next, { h, c }) => h * c + (1 - h) * next, 0);
        expect(game.coalitionValue[d * coalitions + coalition]).toBeCloseTo(value, 12);
      }
    }
  });

  it('hardly ever loses by moving a man from far off onto the line of the ball', () => {
    const { grounders, models } = scored;
    const chances = new InfieldChances(models);
    const gains: number[] = [];
    for (const at of full.filter((_, k) => k % 5 === 0)) {
      game.setActual(at);
      const before = game.value[0]!;
      const men = Array.from({ length: INFIELD_SIZE }, (_, k) => {
        const from = (at * INFIELD_SIZE + k) * 2;
        return { k, x: grounders.starts[from]!, y: grounders.starts[from + 1]! };
      });
      chances.setBall({
        sinBearing: grounders.sinBearing[at]!,
        cosBearing: grounders.cosBearing[at]!,
        exitSpeedMph: grounders.exitSpeedMph[at]!,
        launchAngleDeg: grounders.launchAngleDeg[at]!,
        surface: grounders.surface[at]!,
        batterToFirstS: grounders.batterToFirstS[at]!,
        state: grounders.state[at]!,
      });
      for (const moved of [3, 5]) {
        const depth = Math.hypot(men[moved]!.x, men[moved]!.y);
        const there = men.map(({ k, x, y }) => {
          if (k === moved) chances.standAt(k, depth * grounders.sinBearing[at]!, depth * grounders.cosBearing[at]!);
          else chances.standAt(k, x, y);
          return { k, arrival: chances.arrival, h: chances.reach, c: chances.promise };
        });
        there.sort((a, b) => a.arrival - b.arrival || a.k - b.k);
        const after = there.reduceRight((next, { h, c }) => h * c + (1 - h) * next, 0);
        gains.push(after - before);
      }
    }
    expect(gains.length).toBeGreaterThan(200);
    // He may stand in front of a team-mate who would have had the better throw; that costs a little, and seldom.
    const share = (least: number) => gains.filter((gain) => gain > least).length / gains.length;
    const said = `lowest ${Math.min(...gains)}, above -.05 ${share(-0.05)}, above 0 ${share(0)}`;
    expect(share(-0.05), said).toBeGreaterThan(0.97);
    expect(share(0), said).toBeGreaterThan(0.8);
    expect(Math.min(...gains), said).toBeGreaterThan(-0.25);
  });
});

describe('totals and explanations agree with the ledger', () => {
  it('sums to the entries by fielder and by club', () => {
    const { ledger, grounders } = scored;
    const all = Array.from(ledger.entries.outs.subarray(0, ledger.entries.count)).reduce((a, b) => a + b, 0);
    const fielders = sumFielders([ledger]);
    const teams = sumTeams([ledger]);
    for (const rows of [fielders, teams]) {
      expect(rows.reduce((sum, { outs }) => sum + netOf(outs), 0)).toBeCloseTo(all, 8);
    }
    const atShort = fielders.filter(({ position }) => position === 6);
    expect(atShort.reduce((sum, { plays }) => sum + plays, 0)).toBe(grounders.count);
    expect(atShort.reduce((sum, { gradePlays }) => sum + gradePlays[FULL], 0)).toBe(full.length);
    expect(teams.reduce((sum, { plays }) => sum + plays, 0)).toBe(grounders.count);
    const chances = fielders.reduce((sum, each) => sum + each.chances, 0);
    expect(chances).toBeCloseTo(
      ledger.chance.reduce((a, b) => a + b, 0),
      6,
    );
    for (const team of teams) {
      expect(team.overshiftPlays).toBeLessThanOrEqual(team.plays);
      if (team.overshiftPlays === 0) expect(team.placementRunsInOvershift).toBe(0);
    }
  });

  it('takes a play apart into the numbers that the ledger holds', () => {
    const { grounders, ledger, models } = scored;
    const chances = new GrounderChances(grounders, models);
    for (const at of full.filter((_, k) => k % 211 === 0)) {
      const shifts = ledger.balance.groups[ledger.balance.groupOf[at]!]!;
      const view = dissectPlay(grounders, chances, MOVABLE_ON_GROUNDERS, draws, shifts, at);
      expect(view.lenders).toEqual(Array.from(draws.source.subarray(at * 24, at * 24 + 24)));
      expect(view.openingLow).toBeLessThanOrEqual(ledger.opening[at]!);
      expect(view.openingHigh).toBeGreaterThanOrEqual(ledger.opening[at]!);
      const turns = view.defenders.map(({ startXFt, startYFt, gapFt, arrivalS }) =>
        turnS(gapFt, alongLineFt(grounders.sinBearing[at]!, grounders.cosBearing[at]!, startXFt, startYFt), arrivalS),
      );
      expect(turns).toEqual([...turns].sort((a, b) => a - b));
      let value = 0;
      for (const { reach, promise } of [...view.defenders].reverse()) value = reach * promise + (1 - reach) * value;
      const odds = Math.exp(shifts.set);
      expect((value * odds) / (1 - value + value * odds)).toBeCloseTo(ledger.set[at]!, 10);
      for (const { position, reach, setWithoutHim, evenXFt } of view.defenders) {
        if (reach === 0) expect(setWithoutHim).toBeCloseTo(ledger.set[at]!, 12);
        expect(Number.isNaN(evenXFt)).toBe(position <= 2);
      }
    }
  });
});

describe('shares of two men who are alike', () => {
  it('are equal in a game between mirror images', () => {
    // Two men with the same chance at mirrored starts, and draws that have both farther off: the coalition values of a
    // set mark V = h c + (1 - h) h' c depend on how many of the two are there, so the game is symmetric in them.
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })), {
          minLength: 1,
          maxLength: 8,
        }),
        (drawn) => {
          const values = new Float64Array(4);
          for (const [near, far] of drawn) {
            const mark = (a: number, b: number) => 1 - (1 - a) * (1 - b);
            values[0]! += mark(far, far);
            values[1]! += mark(near, far);
            values[2]! += mark(far, near);
            values[3]! += mark(near, near);
          }
          const shares = new Float64Array(2);
          shapleyInto(values, 2, shares);
          expect(shares[0]).toBeCloseTo(shares[1]!, 12);
        },
      ),
      { seed: 17 },
    );
  });
});
