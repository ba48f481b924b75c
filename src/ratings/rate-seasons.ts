import type { DefenderChances } from '../chances/defender-chances.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { type SkillEvidence, sumEvidence } from './evidence.ts';
import { collectFinishRows } from './finish-rows.ts';
import { homePositions } from './home-positions.ts';
import type { ManRating, RatingScale } from './part-rating.ts';
import { rateMen } from './rate-men.ts';
import { collectReachRows } from './reach-rows.ts';
import { fitSpreads, type SkillSpreads, type SpreadSettings } from './skill-spreads.ts';
import { facetOf, openWindow, type SkillWindow } from './skill-window.ts';
import { type SkillsFile, storeShifts } from './skills.ts';

/** A class of balls as it was scored, with the chances that its models give. */
export interface RatedClass {
  readonly ledger: ClassLedger;
  readonly chances: DefenderChances;
}

/** Grounders, with the gathered marks of models that have not seen the play's game, before balancing. */
export interface RatedGround extends RatedClass {
  readonly gathered: Float64Array;
}

/** Evidence on both skills by class of balls: on the ground, in the air. Finish has the ground alone. */
export interface RatingEvidence {
  readonly reach: readonly SkillEvidence[];
  readonly finish: readonly SkillEvidence[];
}

/** A season's ratings rest on it and on this many seasons before it, never on a later one. */
const SEASONS_BACK = 2;

/** The ratings of a season. */
export interface SeasonRatings {
  readonly fromSeason: number;
  readonly toSeason: number;
  readonly reach: readonly ManRating[];
  readonly finish: readonly ManRating[];
  readonly reachSpreads: SkillSpreads;
  readonly finishSpreads: SkillSpreads;
}

const NO_EVIDENCE: SkillEvidence = { men: [], league: [] };

/** Sums what is known of everybody. A class of balls that the book lacks is null; `hands` has a code of HANDS by person. */
export function collectEvidence(ground: RatedGround | null, air: RatedClass | null, hands: Uint8Array): RatingEvidence {
  const reachOf = (rated: RatedClass | null) =>
    rated === null ? NO_EVIDENCE : sumEvidence(collectReachRows(rated.ledger, rated.chances, hands));
  return {
    reach: [reachOf(ground), reachOf(air)],
    finish: [ground === null ? NO_EVIDENCE : sumEvidence(collectFinishRows(ground.ledger.plays, ground.gathered))],
  };
}

/** The seasons of which there is evidence, earliest first. */
export function seasonsOf({ reach, finish }: RatingEvidence): number[] {
  const seasons = new Set<number>();
  for (const { league } of [...reach, ...finish]) for (const { season } of league) seasons.add(season);
  return [...seasons].sort((a, b) => a - b);
}

/** Ratings as of the end of one season: it and the two before it (method.md 10). */
export function rateSeason(evidence: RatingEvidence, season: number, settings: SpreadSettings = {}): SeasonRatings {
  const fromSeason = season - SEASONS_BACK;
  const wanted = (each: number) => each >= fromSeason && each <= season;
  const reachWindow = openWindow(evidence.reach, wanted);
  const finishWindow = openWindow(evidence.finish, wanted);
  const homes = homePositions(reachWindow);
  const reachSpreads = fitSpreads(reachWindow, homes, settings);
  const finishSpreads = fitSpreads(finishWindow, homes, settings);
  const first = Math.min(...seasonsOf(evidence).filter(wanted));
  return {
    fromSeason: first,
    toSeason: season,
    reach: rateMen(reachWindow, reachSpreads, perHundredChances),
    finish: rateMen(finishWindow, finishSpreads, perHundredGathers(reachWindow)),
    reachSpreads,
    finishSpreads,
  };
}

/** Outs among the chances of the parts that a rating is about, per 100 average chances of theirs. */
const perHundredChances: RatingScale = (_, of) => {
  const chances = of.reduce((sum, part) => sum + part.chances, 0);
  return chances > 0 ? 100 / chances : 0;
};

/**
 * Outs a gather, times the gathers on the ground among 100 average chances of the position on all balls, so that reach and finish of a
 * man may be added.
 */
function perHundredGathers(reach: SkillWindow): RatingScale {
  return (part, _, position) => {
    const chances = [0, 1].map((ballClass) => reach.facets.get(facetOf(ballClass, position))?.league.all.chances ?? 0);
    const all = chances[0] + chances[1];
    return all > 0 && part.rows > 0 ? (100 * (chances[0] / all)) / part.rows : 0;
  };
}

/** What later commands need of the last season's ratings, null when no season shows anything; `people` names the men. */
export function skillsFile(seasons: readonly SeasonRatings[], people: readonly string[]): SkillsFile | null {
  const last = seasons.at(-1);
  if (last === undefined) return null;
  const { fromSeason, toSeason, reach, finish } = last;
  return {
    fromSeason,
    toSeason,
    shifts: [...storeShifts('reach', reach, people), ...storeShifts('finish', finish, people)],
  };
}
