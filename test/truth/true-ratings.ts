import { FINISH, REACH } from '../../src/ledger/entry-kinds.ts';
import { rateSeason, type SeasonRatings } from '../../src/ratings/rate-seasons.ts';
import { fullRows, type LeagueEvidence } from './league-evidence.ts';
import { evenly } from './replays.ts';
import { type TrueGain, trueGains } from './true-gains.ts';

/** A man's rating at a position beside what is true and what the ledger's plain rate says, outs per 100 average chances. */
export interface RatedMan {
  readonly man: number;
  readonly position: number;
  readonly kind: 'reach' | 'finish';
  readonly chances: number;
  readonly mean: number;
  readonly sd: number;
  readonly truth: number;
  /** Standard error of the truth, which replays measure. */
  readonly truthError: number;
  readonly rate: number;
}

export interface TruthSample {
  /** How many plays of each class are replayed. */
  readonly ground: number;
  readonly air: number;
}

/** More luck for finish, whose gains are smaller than those of reach; in the air there is none. */
const ON_GROUND = { reach: 1, finish: 2 };
const IN_AIR = { reach: 1, finish: 0 };

const NO_GAIN: TrueGain = { reach: 0, finish: 0, reachVariance: 0, finishVariance: 0 };

/** Positions with enough chances to be judged: all but pitcher and catcher. */
const JUDGED = [3, 4, 5, 6, 7, 8, 9];

/**
 * Ratings as of the end of `season` beside the truth: what a man's skills are worth in the average man's place on the very balls of those
 * seasons, per 100 average chances, less the mean of the league's men by their chances, which is a rating's zero.
 */
export function ratingsAgainstTruth(own: LeagueEvidence, season: number, sample: TruthSample): RatedMan[] {
  const ratings = rateSeason(own.evidence, season);
  const wanted = (each: number) => each >= ratings.fromSeason && each <= season;
  const whole = { reach: wholePositions(ratings, 'reach'), finish: wholePositions(ratings, 'finish') };
  const [ground, air] = own.ledgers.map((ledger) => fullRows(ledger, wanted)) as [number[], number[]];
  const menAt = (positions: readonly number[]) =>
    new Map(positions.map((p) => [p, whole.reach.filter(({ position }) => position === p).map(({ man }) => man)]));
  const onGround = trueGains(own.league.truth, evenly(ground, sample.ground), menAt([3, 4, 5, 6]), ON_GROUND, 1);
  const inAir = trueGains(own.league.truth, evenly(air, sample.air), menAt(JUDGED), IN_AIR, 2);
  const rated: RatedMan[] = [];
  for (const kind of ['reach', 'finish'] as const) {
    for (const position of JUDGED) {
      const men = whole[kind].filter((each) => each.position === position);
      const all = men.map(({ man }) => chancesOf(own, wanted, man, position));
      const league = leagueChances(own, wanted, position);
      const truth = men.map(({ man }) => {
        const gains = [onGround, inAir].map((found) => found.get(`${man} ${position}`) ?? NO_GAIN);
        const plays = [ground.length, kind === 'reach' ? air.length : 0];
        const sum = (of: (gain: TrueGain, count: number) => number) =>
          gains.reduce((total, gain, k) => total + of(gain, plays[k]!), 0);
        return {
          value: (100 * sum((gain, count) => count * gain[kind])) / league,
          error: (100 / league) * Math.sqrt(sum((gain, count) => count * count * gain[`${kind}Variance`])),
        };
      });
      const total = all.reduce((sum, { chances }) => sum + chances, 0);
      const zero = truth.reduce((sum, { value }, k) => sum + value * all[k]!.chances, 0) / total;
      men.forEach(({ man, rating: { mean, sd } }, k) => {
        const { chances, outs } = all[k]!;
        rated.push({
          man,
          position,
          kind,
          chances,
          mean,
          sd,
          truth: truth[k]!.value - zero,
          truthError: truth[k]!.error,
          rate: (100 * outs[kind]) / chances,
        });
      });
    }
  }
  return rated;
}

function wholePositions(ratings: SeasonRatings, kind: 'reach' | 'finish') {
  return ratings[kind].filter(({ ballClass }) => ballClass === -1);
}

function leagueChances({ evidence }: LeagueEvidence, wanted: (season: number) => boolean, position: number): number {
  let sum = 0;
  for (const { league } of evidence.reach) {
    for (const part of league) if (part.position === position && wanted(part.season)) sum += part.chances;
  }
  return sum;
}

function chancesOf({ totals }: LeagueEvidence, wanted: (season: number) => boolean, man: number, position: number) {
  const sum = { chances: 0, outs: { reach: 0, finish: 0 } };
  for (const total of totals) {
    if (total.fielder !== man || total.position !== position || !wanted(total.season)) continue;
    sum.chances += total.chances;
    sum.outs.reach += total.outs[REACH]!;
    sum.outs.finish += total.outs[FINISH]!;
  }
  return sum;
}
