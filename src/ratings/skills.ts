import type { ManRating } from './part-rating.ts';

export type SkillKind = 'reach' | 'finish';
export type BallClass = 'ground' | 'air';

/** Classes of balls in the order of their numbers in facets. */
export const BALL_CLASSES: readonly BallClass[] = ['ground', 'air'];

/** A man's shift on the logit of reach or finish, with its standard deviation, as a build leaves it in its file. */
export interface StoredShift {
  readonly kind: SkillKind;
  readonly ballClass: BallClass;
  readonly position: number;
  readonly person: string;
  readonly shift: number;
  readonly sd: number;
}

/** Everybody's shifts by the evidence of the last season and the two before it. */
export interface SkillsFile {
  readonly fromSeason: number;
  readonly toSeason: number;
  readonly shifts: readonly StoredShift[];
}

/**
 * How much better than the league's average man at his position somebody is, on the logit scale of h (reach) or G (finish):
 * add it to the logit of a chance to have his chance (method.md 10).
 */
export interface Skills {
  /** The seasons that they rest on, NaN when there are none. */
  readonly fromSeason: number;
  readonly toSeason: number;
  /** Balls on the ground for positions 1 to 6 unless told, in the air for 7 to 9; 0 for a man of whom nothing is known there. */
  shiftOf(kind: SkillKind, position: number, personId: string, ballClass?: BallClass): number;
  /** Standard deviation of that shift; NaN for a man of whom nothing is known there. */
  sdOf(kind: SkillKind, position: number, personId: string, ballClass?: BallClass): number;
}

/** Skills as a build left them; of a build that showed nothing of anybody (null) everybody is average. */
export function readSkills(file: SkillsFile | null): Skills {
  const shifts = file?.shifts ?? [];
  const stored = new Map(shifts.map((own) => [keyOf(own.kind, own.ballClass, own.position, own.person), own]));
  const find = (kind: SkillKind, position: number, personId: string, ballClass?: BallClass) =>
    stored.get(keyOf(kind, ballClass ?? (position <= 6 ? 'ground' : 'air'), position, personId));
  return {
    fromSeason: file?.fromSeason ?? Number.NaN,
    toSeason: file?.toSeason ?? Number.NaN,
    shiftOf: (kind, position, personId, ballClass) => find(kind, position, personId, ballClass)?.shift ?? 0,
    sdOf: (kind, position, personId, ballClass) => find(kind, position, personId, ballClass)?.sd ?? Number.NaN,
  };
}

function keyOf(kind: SkillKind, ballClass: BallClass, position: number, personId: string): string {
  return `${kind} ${ballClass} ${position} ${personId}`;
}

/** The shifts among ratings of one kind: one a man, position and class of balls. `people` names the men. */
export function storeShifts(kind: SkillKind, ratings: readonly ManRating[], people: readonly string[]): StoredShift[] {
  return ratings
    .filter(({ ballClass, direction }) => ballClass >= 0 && direction === -1)
    .map(({ man, position, ballClass, shift }) => ({
      kind,
      ballClass: BALL_CLASSES[ballClass],
      position,
      person: people[man],
      shift: shift.mean,
      sd: shift.sd,
    }));
}
