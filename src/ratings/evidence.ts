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
  /** Outs that his successes came to more than the league's do. */
  surplus: number;
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
  done: number;
  /** Sum of squares of the rows' surpluses, each less the mean of its season and position. */
  surplusSquares: number;
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
 * so that its average man is at 0 whatever the surface, which was fitted to all seasons, makes of it; and each success by the
 * mean surplus.
 */
export function sumEvidence(rows: SkillRows): SkillEvidence {
  const centres = seasonCentres(rows);
  const men = new Map<number, Evidence>();
  const league = new Map<number, LeagueChances>();
  for (let i = 0; i < rows.count; i += 1) {
    const [man, season, position, direction] = [rows.man[i], rows.season[i], rows.position[i], rows.direction[i]];
    const group = (season * 10 + position) * DIRECTIONS.length + direction;
    const { shift, surplus: usual } = centres.get(season * 10 + position)!;
    const inverseOdds = Math.exp(-rows.logit[i] - shift);
    const surplus = rows.surplus[i] - rows.outcome[i] * usual;
    const chance = 1 / (1 + inverseOdds);
    const key = man * 1e6 + group;
    let own = men.get(key);
    if (own === undefined) {
      const sums = new Float64Array(CURVE_POINTS);
      own = { man, season, position, direction, rows: 0, chances: 0, done: 0, surplus: 0, sums };
      men.set(key, own);
    }
    own.rows += 1;
    own.chances += chance;
    own.done += rows.outcome[i];
    own.surplus += surplus;
    addRowInto(own.sums, 0, inverseOdds, 1);
    let all = league.get(group);
    if (all === undefined) {
      const sums = new Float64Array(CURVE_POINTS);
      all = { season, position, direction, rows: 0, chances: 0, done: 0, surplusSquares: 0, sums };
      league.set(group, all);
    }
    all.rows += 1;
    all.chances += chance;
    all.done += rows.outcome[i];
    all.surplusSquares += surplus * surplus;
    addRowInto(all.sums, 0, inverseOdds, rows.worth[i]);
  }
  return { men: [...men.values()], league: [...league.values()] };
}

/** What is average at a season and position. */
interface SeasonCentre {
  /** At which the chances add up to what was done. */
  readonly shift: number;
  /** A success. */
  readonly surplus: number;
}

/** By season * 10 + position. */
function seasonCentres(rows: SkillRows): Map<number, SeasonCentre> {
  const sums = new Map<number, { done: number; surplus: number; curve: Float64Array }>();
  for (let i = 0; i < rows.count; i += 1) {
    const key = rows.season[i] * 10 + rows.position[i];
    let own = sums.get(key);
    if (own === undefined) {
      own = { done: 0, surplus: 0, curve: new Float64Array(CURVE_POINTS) };
      sums.set(key, own);
    }
    addRowInto(own.curve, 0, Math.exp(-rows.logit[i]), 1);
    own.done += rows.outcome[i];
    own.surplus += rows.surplus[i];
  }
  return new Map(
    [...sums].map(([key, { done, surplus, curve }]) => [
      key,
      {
        shift: likeliestShift(new ShiftCurve(curve), done, CENTRE_SPREAD),
        surplus: done > 0 ? surplus / done : 0,
      },
    ]),
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
