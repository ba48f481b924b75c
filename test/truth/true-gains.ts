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

/** Outs a ball by which a man is better than the average man of a position, in his place among average men. */
export interface TrueGain {
  /** In his entries of reach; and of finish, at the average man's number of gathers. */
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
  readonly ball: number;
  readonly out: number;
  /** His entry of reach, but for the gathered mark where he gathered. */
  readonly entry: number;
  /** Number of his gather among the replayed ones, -1 for none. */
  readonly gather: number;
}

/** True gains over grounders of grade `full`, given by their numbers in the class; by `man position`. */
export function gainsOnGround(
  own: LeagueEvidence,
  at: readonly number[],
  men: MenByPosition,
  seed: number,
): Map<string, TrueGain> {
  const { grounders, models } = own;
  const game = new BallGame(
    grounders,
    new GrounderChances(grounders, models),
    { draws: 0, source: new Int32Array(0) },
    [],
  );
  const gathers = new ReplayedGathers();
  const usual = new Map<string, Replay>();
  const replays = new Map<string, Replay[]>();
  const describe = (ball: number, position: number, outcome: Outcome): Replay => ({
    ball,
    out: outcome.outsMade > 0 ? 1 : 0,
    entry: reachEntry(game, position - 1, outcome),
    gather: outcome.gatheredBy === position ? gathers.add(at[ball]!, outcome) : -1,
  });
  playInTurn(
    own.league.truth,
    Array.from(at, (k) => grounders.row[k]!),
    men,
    seed,
    {
      average(ball, outcome) {
        game.setActual(at[ball]!);
        for (const position of men.keys()) usual.set(`${ball} ${position}`, describe(ball, position, outcome));
      },
      man(ball, man, position, outcome) {
        const key = `${man} ${position}`;
        const list = replays.get(key);
        const replay = describe(ball, position, outcome);
        if (list === undefined) replays.set(key, [replay]);
        else list.push(replay);
      },
    },
  );
  const marks = gathers.marks(grounders, models);
  const mark = (replay: Replay): Entered => {
    const gathered = replay.gather >= 0 ? marks[replay.gather]! : Number.NaN;
    return replay.gather < 0
      ? { out: replay.out, reach: replay.entry, finish: 0, gathers: 0 }
      : { out: replay.out, reach: replay.entry + gathered, finish: replay.out - gathered, gathers: 1 };
  };
  const usualSums = new Map<number, Entered>();
  for (const position of men.keys())
    usualSums.set(position, sumOf(at.map((_, ball) => mark(usual.get(`${ball} ${position}`)!))));
  return new Map(
    [...replays].map(([key, list]) => {
      const position = key.split(' ')[1]!;
      const pairs = list.map((replay) => ({
        his: mark(replay),
        other: mark(usual.get(`${replay.ball} ${position}`)!),
      }));
      return [key, gainOf(pairs, usualSums.get(Number(position))!, at.length)];
    }),
  );
}

/** A replay as the book enters it, or a sum of such. */
interface Entered {
  readonly out: number;
  readonly reach: number;
  readonly finish: number;
  readonly gathers: number;
}

function sumOf(list: readonly Entered[]): Entered {
  const add = (of: (each: Entered) => number) => list.reduce((total, each) => total + of(each), 0);
  return {
    out: add(({ out }) => out),
    reach: add(({ reach }) => reach),
    finish: add(({ finish }) => finish),
    gathers: add(({ gathers }) => gathers),
  };
}

/** Gain over `balls` of which only those in `pairs` can differ; `usual` sums the average man's replays of all. */
function gainOf(
  pairs: readonly { readonly his: Entered; readonly other: Entered }[],
  usual: Entered,
  balls: number,
): TrueGain {
  const own = sumOf(pairs.map(({ his }) => his));
  const rate = own.finish / Math.max(own.gathers, 1);
  const usualRate = usual.finish / Math.max(usual.gathers, 1);
  const stretch = usual.gathers / Math.max(own.gathers, 1);
  // A rate a gather is a ratio: its variance is that of what is left of finish when gathers at the rate are taken out.
  const beyond = pairs.map(
    ({ his, other }) => stretch * (his.finish - rate * his.gathers) - (other.finish - usualRate * other.gathers),
  );
  return {
    reach: measure(
      pairs.map(({ his, other }) => his.reach - other.reach),
      balls,
    ),
    finish: { value: (rate - usualRate) * (usual.gathers / balls), variance: measure(beyond, balls).variance },
    both: measure(
      pairs.map(({ his, other }) => his.out - other.out),
      balls,
    ),
  };
}

/** The same for balls in the air, given by their rows in the table: a ball caught is an out, and all of it is reach. */
export function gainsInAir(
  own: LeagueEvidence,
  rows: readonly number[],
  men: MenByPosition,
  seed: number,
): Map<string, TrueGain> {
  const usual = new Float64Array(rows.length);
  const more = new Map<string, number[]>();
  playInTurn(own.league.truth, rows, men, seed, {
    average(ball, { outsMade }) {
      usual[ball] = outsMade > 0 ? 1 : 0;
    },
    man(ball, man, position, { outsMade }) {
      const key = `${man} ${position}`;
      const difference = (outsMade > 0 ? 1 : 0) - usual[ball]!;
      const list = more.get(key);
      if (list === undefined) more.set(key, [difference]);
      else list.push(difference);
    },
  });
  return new Map(
    [...more].map(([key, list]) => {
      const reach = measure(list, rows.length);
      return [key, { reach, finish: NO_GAIN.finish, both: reach }];
    }),
  );
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

/** Mean of differences over `count` balls, those not listed being 0. */
function measure(differences: readonly number[], count: number): Measured {
  const sum = differences.reduce((total, each) => total + each, 0);
  const squares = differences.reduce((total, each) => total + each * each, 0);
  return { value: sum / count, variance: squares / count ** 2 };
}
