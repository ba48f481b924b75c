import { BallGame } from '../../src/chances/ball-game.ts';
import { lastAtRisk } from '../../src/chances/chance-rows.ts';
import { GrounderChances } from '../../src/chances/grounder-chances.ts';
import type { Outcome } from '../../src/league/physics/situation.ts';
import type { LeagueEvidence } from './league-evidence.ts';
import { playInTurn } from './men-in-turn.ts';
import { ReplayedGathers } from './replayed-gathers.ts';

/** A number that replays measure, with its variance by the luck of the sample. */
export interface Measured {
  readonly value: number;
  readonly variance: number;
}

/** Outs a ball that a man brings to a position among average men; only the men of one position can be compared. */
export interface TrueGain {
  /** In his entries of reach; and of finish, at the usual number of gathers. */
  readonly reach: Measured;
  readonly finish: Measured;
  /** In all outs of the nine, whoever is credited with them: no model has a part in it. */
  readonly both: Measured;
}

export const NO_GAIN: TrueGain = {
  reach: { value: 0, variance: 0 },
  finish: { value: 0, variance: 0 },
  both: { value: 0, variance: 0 },
};

type MenByPosition = ReadonlyMap<number, readonly number[]>;

/** What one ball came to for the man at a position. */
interface Replay {
  readonly out: number;
  /** His entry of reach, but for the gathered mark where he gathered. */
  readonly entry: number;
  /** Number of his gather among the replayed ones, -1 for none. */
  readonly gather: number;
}

/** By position and man; the lists of one position are of the same balls. */
type ByMan<T> = Map<number, Map<number, T[]>>;

function note<T>(lists: ByMan<T>, position: number, man: number, replay: T): void {
  const here = lists.get(position) ?? new Map<number, T[]>();
  const own = here.get(man) ?? [];
  own.push(replay);
  here.set(man, own);
  lists.set(position, here);
}

/** True gains over grounders of grade `full`, given by their numbers in the class; by `man position`. */
export function gainsOnGround(
  own: LeagueEvidence,
  at: readonly number[],
  men: MenByPosition,
  seed: number,
): Map<string, TrueGain> {
  const { grounders, models } = own;
  const chances = new GrounderChances(grounders, models);
  const game = new BallGame(grounders, chances, { draws: 0, source: new Int32Array(0) }, []);
  const gathers = new ReplayedGathers();
  const replays: ByMan<Replay> = new Map();
  playInTurn(
    own.league.truth,
    Array.from(at, (k) => grounders.row[k]!),
    men,
    seed,
    {
      ball(ball) {
        game.setActual(at[ball]!);
      },
      man(ball, man, position, outcome) {
        note(replays, position, man, {
          out: outcome.outsMade > 0 ? 1 : 0,
          entry: reachEntry(game, position - 1, outcome),
          gather: outcome.gatheredBy === position ? gathers.add(at[ball]!, outcome) : -1,
        });
      },
    },
  );
  const marks = gathers.marks(grounders, models);
  const gains = new Map<string, TrueGain>();
  for (const [position, lists] of replays) {
    const measured = gainsOf(
      [...lists.values()].map((list) => list.map((replay) => enter(replay, marks))),
      at.length,
    );
    [...lists.keys()].forEach((man, k) => {
      gains.set(`${man} ${position}`, measured[k]!);
    });
  }
  return gains;
}

/** A replay as the book enters it. */
interface Entered {
  readonly out: number;
  readonly reach: number;
  readonly finish: number;
  readonly gathers: number;
}

function enter({ out, entry, gather }: Replay, marks: Float64Array): Entered {
  if (gather < 0) return { out, reach: entry, finish: 0, gathers: 0 };
  return { out, reach: entry + marks[gather]!, finish: out - marks[gather]!, gathers: 1 };
}

/** Gains of the men of one position over `balls`, of which only those in the lists can differ. */
function gainsOf(men: readonly (readonly Entered[])[], balls: number): TrueGain[] {
  const sums = men.map((list) => ({
    finish: sum(list.map(({ finish }) => finish)),
    gathers: sum(list.map(({ gathers }) => gathers)),
  }));
  const usual = sum(sums.map(({ gathers }) => gathers)) / men.length;
  const rates = sums.map(({ finish, gathers }) => finish / Math.max(gathers, 1));
  // A rate a gather is a ratio: its variance is that of what is left of finish when gathers at the rate are taken out.
  const beyond = men.map((list, k) => {
    const stretch = usual / Math.max(sums[k]!.gathers, 1);
    return list.map(({ finish, gathers }) => stretch * (finish - rates[k]! * gathers));
  });
  const finish = measureApart(beyond, balls);
  const reach = measureApart(
    men.map((list) => list.map((each) => each.reach)),
    balls,
  );
  const both = measureApart(
    men.map((list) => list.map(({ out }) => out)),
    balls,
  );
  return men.map((_, k) => ({
    reach: reach[k]!,
    finish: { value: (rates[k]! * usual) / balls, variance: finish[k]!.variance },
    both: both[k]!,
  }));
}

/** The same for balls in the air, given by their rows in the table: a ball caught is an out, and all of it is reach. */
export function gainsInAir(
  own: LeagueEvidence,
  rows: readonly number[],
  men: MenByPosition,
  seed: number,
): Map<string, TrueGain> {
  const outs: ByMan<number> = new Map();
  playInTurn(own.league.truth, rows, men, seed, {
    man(_, man, position, { outsMade }) {
      note(outs, position, man, outsMade > 0 ? 1 : 0);
    },
  });
  const gains = new Map<string, TrueGain>();
  for (const [position, lists] of outs) {
    const measured = measureApart([...lists.values()], rows.length);
    [...lists.keys()].forEach((man, k) => {
      gains.set(`${man} ${position}`, { reach: measured[k]!, finish: NO_GAIN.finish, both: measured[k]! });
    });
  }
  return gains;
}

/** Entry of reach (method.md 6) on the ball set last, without the gathered mark of who gathered it. */
function reachEntry({ chanceOrder, value, given }: BallGame, k: number, { gatheredBy, touchedBy }: Outcome): number {
  const last = lastAtRisk(gatheredBy, touchedBy) - 1;
  for (let place = 0; place < chanceOrder.length; place += 1) {
    const here = chanceOrder[place]!;
    if (here === k) {
      if (given[k] === 0) return 0;
      return (k === last ? 0 : value[place + 1]!) - value[place]!;
    }
    if (here === last) break;
  }
  return 0;
}

/**
 * Each man's mean over `count` balls, those not listed being 0. The luck that all men of the position share is in none of the variances:
 * they are compared with one another.
 */
function measureApart(men: readonly (readonly number[])[], count: number): Measured[] {
  const usual = men[0]!.map((_, ball) => sum(men.map((list) => list[ball]!)) / men.length);
  return men.map((list) => ({
    value: sum(list) / count,
    variance: sum(list.map((each, ball) => (each - usual[ball]!) ** 2)) / count ** 2,
  }));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, each) => total + each, 0);
}
