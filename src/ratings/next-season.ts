import type { AgeCurve } from './age-curve.ts';
import { ageChange } from './age-curve.ts';
import type { Estimate } from './man-posterior.ts';
import { inUnits, type OutsToCome, outsToCome } from './outs-to-come.ts';
import type { ManRating } from './part-rating.ts';
import type { ChanceNature, PlayingRecord } from './playing-record.ts';
import type { ExpectedChances, PlayingTime } from './playing-time.ts';
import type { SeasonRatings } from './rate-seasons.ts';

/** What a man is expected to do at a position next season, if he is back there. */
export interface NextSeason {
  readonly man: number;
  readonly position: number;
  /** The season that is to come. */
  readonly season: number;
  /** His chances in the seasons that the rating rests on. */
  readonly seenChances: number;
  /** Extra outs per 100 average chances, reach and finish together, aged where the book carries an age curve. */
  readonly rating: Estimate;
  /** What ageing did to the rating, outs per 100 average chances; NaN without a curve or a birth date. */
  readonly ageing: number;
  readonly chances: ExpectedChances;
  /** Outs and runs of reach and finish, with what is not known of skill, playing time and the luck of the plays. */
  readonly outs: OutsToCome;
  readonly runs: OutsToCome;
}

export interface AgeCurves {
  readonly reach: AgeCurve | null;
  readonly finish: AgeCurve | null;
}

/** What an expectation is made of besides the ratings. */
export interface ExpectationParts {
  readonly records: readonly PlayingRecord[];
  readonly playingTime: PlayingTime;
  readonly nature: ChanceNature;
  readonly age: AgeCurves;
  /** A man's age in the middle of a season, years; NaN when unknown. */
  readonly ageAt: (man: number, season: number) => number;
}

/** Expectations for everybody who had chances at a position in the last season that the ratings rest on (method.md 10). */
export function expectNextSeason(ratings: SeasonRatings, parts: ExpectationParts): NextSeason[] {
  const { records, playingTime, nature, ageAt } = parts;
  const season = ratings.toSeason + 1;
  const reach = wholePositions(ratings.reach);
  const finish = wholePositions(ratings.finish);
  const seasons = meanSeasons(records, ratings);
  const expected: NextSeason[] = [];
  for (const record of records) {
    const own = reach.get(keyOf(record));
    if (record.season !== ratings.toSeason || !(record.chances > 0) || own === undefined) continue;
    const { man, position } = record;
    const years = season - seasons.get(keyOf(record))!;
    const age = ageAt(man, season);
    const aged = [
      addAge(own, parts.age.reach, age, years),
      addAge(finish.get(keyOf(record)), parts.age.finish, age, years),
    ];
    const rating = {
      mean: aged[0].rating.mean + aged[1].rating.mean,
      sd: Math.hypot(aged[0].rating.sd, aged[1].rating.sd),
    };
    const chances = playingTime.expect(record);
    const outs = outsToCome(rating, chances, nature.variance[position]);
    expected.push({
      man,
      position,
      season,
      seenChances: own.chances,
      rating,
      ageing: parts.age.reach === null || Number.isNaN(age) ? Number.NaN : aged[0].change + aged[1].change,
      chances,
      outs,
      runs: inUnits(outs, nature.runsAnOut[position]),
    });
  }
  return expected.sort((a, b) => a.position - b.position || b.outs.mean - a.outs.mean || a.man - b.man);
}

interface AgedRating {
  readonly rating: Estimate;
  readonly change: number;
}

/** A rating moved by age. How many outs a shift is worth is read off the two standard deviations. */
function addAge(own: ManRating | undefined, curve: AgeCurve | null, age: number, years: number): AgedRating {
  if (own === undefined) return { rating: { mean: 0, sd: 0 }, change: 0 };
  if (curve === null || Number.isNaN(age)) return { rating: own.rating, change: 0 };
  const change = ageChange(curve, age, years) * (own.shift.sd > 0 ? own.rating.sd / own.shift.sd : 0);
  return { rating: { mean: own.rating.mean + change, sd: own.rating.sd }, change };
}

function wholePositions(ratings: readonly ManRating[]): Map<string, ManRating> {
  return new Map(ratings.filter(({ ballClass }) => ballClass === -1).map((own) => [keyOf(own), own]));
}

/** Mean season of each man's chances at a position in the window of the ratings. */
function meanSeasons(records: readonly PlayingRecord[], { fromSeason, toSeason }: SeasonRatings): Map<string, number> {
  const sums = new Map<string, { chances: number; years: number }>();
  for (const record of records) {
    if (record.season < fromSeason || record.season > toSeason) continue;
    const sum = sums.get(keyOf(record)) ?? { chances: 0, years: 0 };
    sum.chances += record.chances;
    sum.years += record.chances * record.season;
    sums.set(keyOf(record), sum);
  }
  return new Map([...sums].map(([key, { chances, years }]) => [key, chances > 0 ? years / chances : toSeason]));
}

function keyOf({ man, position }: { readonly man: number; readonly position: number }): string {
  return `${man} ${position}`;
}
