import { DIRECTIONS } from './directions.ts';
import { addRowInto, CURVE_POINTS, ShiftCurve } from './shift-curve.ts';
import type { SkillRows } from './skill-rows.ts';

/** What is known of one man at one position, in one direction and season; such sums add up. */
export interface Evidence {
  readonly man: number;
  readonly season: number;
  readonly position: number;
  readonly direction: number;
  rows: number;
  /** Sum of the average man's chances. */
  chances: number;
  /** How often he did it. */
  done: number;
  /** Values of the sum of chances at the points of a ShiftCurve. */
  readonly sums: Float64Array;
}

/** The league's chances at one position, in one direction and season, each with what doing it is worth. */
export interface LeagueChances {
  readonly season: number;
  readonly position: number;
  readonly direction: number;
  rows: number;
  chances: number;
  /** Values of the sum of chance times worth at the points of a ShiftCurve. */
  readonly sums: Float64Array;
}

/** All that the ratings of one skill on one class of balls rest on. */
export interface SkillEvidence {
  readonly men: readonly Evidence[];
  readonly league: readonly LeagueChances[];
}

/** Standard deviation of a season's centre, logits, believed before it is seen: a position that is never called on stays at 0. */
const CENTRE_SPREAD = 0.5;

/**
 * Sums rows by man, position, direction and season. Each season and position is first centred by one shift on the logit scale,
 * so that its average man is at 0 whatever the surface, which was fitted to all seasons, makes of it.
 */
export function sumEvidence(rows: SkillRows): SkillEvidence {
  const centre = seasonCentres(rows);
  const men = new Map<number, Evidence>();
  const league = new Map<number, LeagueChances>();
  for (let i = 0; i < rows.count; i += 1) {
    const [man, season, position, direction] = [rows.man[i], rows.season[i], rows.position[i], rows.direction[i]];
    const group = (season * 10 + position) * DIRECTIONS.length + direction;
    const inverseOdds = Math.exp(-rows.logit[i] - (centre.get(season * 10 + position) ?? 0));
    const chance = 1 / (1 + inverseOdds);
    const key = man * 1e6 + group;
    let own = men.get(key);
    if (own === undefined) {
      own = { man, season, position, direction, rows: 0, chances: 0, done: 0, sums: new Float64Array(CURVE_POINTS) };
      men.set(key, own);
    }
    own.rows += 1;
    own.chances += chance;
    own.done += rows.outcome[i];
    addRowInto(own.sums, 0, inverseOdds, 1);
    let all = league.get(group);
    if (all === undefined) {
      all = { season, position, direction, rows: 0, chances: 0, sums: new Float64Array(CURVE_POINTS) };
      league.set(group, all);
    }
    all.rows += 1;
    all.chances += chance;
    addRowInto(all.sums, 0, inverseOdds, rows.worth[i]);
  }
  return { men: [...men.values()], league: [...league.values()] };
}

/** For each season * 10 + position the shift at which its chances add up to what was done. */
function seasonCentres(rows: SkillRows): Map<number, number> {
  const sums = new Map<number, Float64Array>();
  const done = new Map<number, number>();
  for (let i = 0; i < rows.count; i += 1) {
    const key = rows.season[i] * 10 + rows.position[i];
    let own = sums.get(key);
    if (own === undefined) {
      own = new Float64Array(CURVE_POINTS);
      sums.set(key, own);
    }
    addRowInto(own, 0, Math.exp(-rows.logit[i]), 1);
    done.set(key, (done.get(key) ?? 0) + rows.outcome[i]);
  }
  return new Map(
    [...sums].map(([key, own]) => [key, likeliestShift(new ShiftCurve(own), done.get(key)!, CENTRE_SPREAD)]),
  );
}

/** Mode of a shift with a normal prior about 0: `done` successes where `curve` has the sum of chances. Newton, from 0. */
function likeliestShift(curve: ShiftCurve, done: number, spread: number): number {
  const precision = 1 / (spread * spread);
  let v = 0;
  for (let pass = 0; pass < 50; pass += 1) {
    curve.at(v);
    const step = (done - curve.value - precision * v) / (curve.slope + precision);
    v += Math.max(-1, Math.min(1, step));
    if (Math.abs(step) < 1e-10) break;
  }
  return v;
}
