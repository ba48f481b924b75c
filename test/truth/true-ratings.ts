import { FINISH, REACH } from '../../src/ledger/entry-kinds.ts';
import type { ManRating } from '../../src/ratings/part-rating.ts';
import { rateSeason } from '../../src/ratings/rate-seasons.ts';
import { fullyRecorded, type LeagueEvidence } from './league-evidence.ts';
import { evenly } from './replays.ts';
import { gainsInAir, gainsOnGround, NO_GAIN, type TrueGain } from './true-gains.ts';

/** What is judged: a rating, or the sum of a man's two. */
export const JUDGED_KINDS = ['reach', 'finish', 'both'] as const;
export type JudgedKind = (typeof JUDGED_KINDS)[number];

/** A man's rating at a position beside what is true and what the ledger's plain rate says, outs per 100 average chances. */
export interface RatedMan {
  readonly man: number;
  readonly position: number;
  readonly kind: JudgedKind;
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

/** Positions with enough chances to be judged: all but pitcher and catcher. Outfielders have no finish. */
const INFIELDERS = [3, 4, 5, 6];
const JUDGED = [...INFIELDERS, 7, 8, 9];

/**
 * Ratings as of the end of `season` beside the truth, per 100 average chances, less the mean of the league's men by their chances, which
 * is a rating's zero. True reach and finish are a man's entries (method.md 6) in endless seasons in the average man's place on the very
 * balls of those seasons; both together are beside the outs that the nine truly make with him, whoever is credited with them.
 */
export function ratingsAgainstTruth(own: LeagueEvidence, season: number, sample: TruthSample): RatedMan[] {
  const ratings = rateSeason(own.evidence, season);
  const wanted = (each: number) => each >= ratings.fromSeason && each <= season;
  const [ground, air] = own.ledgers.map((ledger) => fullyRecorded(ledger, wanted)) as [number[], number[]];
  const whole = (list: readonly ManRating[], position: number) =>
    list.filter((each) => each.ballClass === -1 && each.position === position);
  const menAt = (positions: readonly number[]) =>
    new Map(positions.map((position) => [position, whole(ratings.reach, position).map(({ man }) => man)]));
  const onGround = gainsOnGround(own, evenly(ground, sample.ground), menAt(INFIELDERS), 1);
  const airRows = evenly(air, sample.air).map((at) => own.ledgers[1]!.plays.row[at]!);
  const inAir = gainsInAir(own, airRows, menAt(JUDGED), 2);
  return JUDGED.flatMap((position) => {
    const league = leagueChances(own, wanted, position);
    const reach = whole(ratings.reach, position);
    const ledger = new Map(reach.map(({ man }) => [man, ledgerOf(own, wanted, man, position)]));
    const truth = new Map(
      reach.map(({ man }) => {
        const gains = [onGround, inAir].map((found) => found.get(`${man} ${position}`) ?? NO_GAIN);
        return [man, addClasses(gains, [ground.length, air.length], league)];
      }),
    );
    const judge = (kind: JudgedKind, list: readonly ManRating[], estimateOf: (rating: ManRating) => Estimated) => {
      const total = reach.reduce((sum, { man }) => sum + ledger.get(man)!.chances, 0);
      const zero =
        reach.reduce((sum, { man }) => sum + truth.get(man)![kind].value * ledger.get(man)!.chances, 0) / total;
      return list.map((rating): RatedMan => {
        const { value, variance } = truth.get(rating.man)![kind];
        const { chances, outs } = ledger.get(rating.man)!;
        return {
          man: rating.man,
          position,
          kind,
          chances,
          ...estimateOf(rating),
          truth: value - zero,
          truthError: Math.sqrt(variance),
          rate: (100 * outs[kind]) / chances,
        };
      });
    };
    const judged = judge('reach', reach, ({ rating }) => rating);
    if (!INFIELDERS.includes(position)) return judged;
    const finish = whole(ratings.finish, position).filter(({ man }) => truth.has(man));
    const reachOf = new Map(reach.map(({ man, rating }) => [man, rating]));
    return [
      ...judged,
      ...judge('finish', finish, ({ rating }) => rating),
      ...judge('both', finish, ({ man, rating }) => ({
        mean: rating.mean + reachOf.get(man)!.mean,
        sd: Math.hypot(rating.sd, reachOf.get(man)!.sd),
      })),
    ];
  });
}

interface Estimated {
  readonly mean: number;
  readonly sd: number;
}

/** Gains a ball on either class of balls, as outs per 100 of the position's chances. */
function addClasses(gains: readonly TrueGain[], balls: readonly number[], chances: number): TrueGain {
  const add = (kind: JudgedKind) => ({
    value: (100 / chances) * gains.reduce((sum, gain, k) => sum + balls[k]! * gain[kind].value, 0),
    variance: (100 / chances) ** 2 * gains.reduce((sum, gain, k) => sum + balls[k]! ** 2 * gain[kind].variance, 0),
  });
  return { reach: add('reach'), finish: add('finish'), both: add('both') };
}

function leagueChances({ evidence }: LeagueEvidence, wanted: (season: number) => boolean, position: number): number {
  let sum = 0;
  for (const { league } of evidence.reach) {
    for (const part of league) if (part.position === position && wanted(part.season)) sum += part.chances;
  }
  return sum;
}

function ledgerOf({ totals }: LeagueEvidence, wanted: (season: number) => boolean, man: number, position: number) {
  const sum = { chances: 0, outs: { reach: 0, finish: 0, both: 0 } };
  for (const total of totals) {
    if (total.fielder !== man || total.position !== position || !wanted(total.season)) continue;
    sum.chances += total.chances;
    sum.outs.reach += total.outs[REACH]!;
    sum.outs.finish += total.outs[FINISH]!;
  }
  sum.outs.both = sum.outs.reach + sum.outs.finish;
  return sum;
}
