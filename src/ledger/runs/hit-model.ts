import { chosenSettings, type FitChoices } from '../../chances/fit-chance.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS, type BallKind, RESULTS } from '../../diamond/play-codes.ts';
import { type FittedMultinomial, predictCategories } from '../../models/fit-multinomial.ts';
import { type Fitting, oneMultinomialFit, together } from '../../models/fitting.ts';
import type { Term } from '../../models/terms.ts';

/** Hits that a ball may be, in the order of the categories. */
const HITS = 3;

/** Which hit a ball of some kinds is when it is one. */
export interface HitGroup {
  readonly name: string;
  /** Single, double, triple; null where there was too little to learn from, and then `shares` serve for every ball. */
  readonly fitted: FittedMultinomial | null;
  /** Shares of single, double and triple in the book, drawn a little toward the usual ones. */
  readonly shares: readonly number[];
}

export interface HitModel {
  /** Parks in the order of the models' levels. */
  readonly parks: readonly string[];
  /** In the order of HIT_GROUPS. */
  readonly groups: readonly HitGroup[];
}

/** Kinds of ball whose hits are alike, with usual shares of single, double, triple, from memory. */
const HIT_GROUPS: readonly {
  readonly name: string;
  readonly kinds: readonly BallKind[];
  /** Whether such balls come to a wall before somebody has them. */
  readonly walls: boolean;
  readonly usual: readonly number[];
}[] = [
  { name: 'ground', kinds: ['ground', 'bunt'], walls: false, usual: [0.92, 0.077, 0.003] },
  { name: 'liner', kinds: ['liner'], walls: true, usual: [0.72, 0.26, 0.02] },
  { name: 'fly', kinds: ['fly', 'popup'], walls: true, usual: [0.5, 0.45, 0.05] },
];

/** A group is fitted when it has this many hits of each of singles and extra bases, and of triples the second number. */
const FEWEST = 40;
const FEWEST_TRIPLES = 5;
/** The usual shares count as much as this many balls. */
const USUAL_WEIGHT = 20;
/** Log odds are believed to be within some tens of zero: the weak prior of all chance models. */
const WEAK_PRIOR = 0.01;
/** Strips of the field, from one line to the other, in each of which a park has a wall of its own. */
const STRIPS = 6;
const STRIP_DEG = 15;

const [DOUBLE, TRIPLE, HOME_RUN] = (['double', 'triple', 'home_run'] as const).map((name) => RESULTS.indexOf(name));
const GROUP_OF_KIND = BALL_KINDS.map((kind) => HIT_GROUPS.findIndex(({ kinds }) => kinds.includes(kind)));

/** Terms of a group with this many kinds, in a book of this many parks. */
function hitTerms(kinds: number, parks: number, walls: boolean): readonly Term[] {
  const bearing = { covariate: 'bearing', lo: -46, hi: 46, segments: 16 };
  const speed = { covariate: 'speed', lo: 20, hi: 120, segments: 4 };
  const terms: Term[] = [{ kind: 'tensor', margins: [bearing, speed] }];
  // Levels that there are at least two of.
  if (kinds > 1) terms.push({ kind: 'random', covariate: 'kind', levels: BALL_KINDS.length });
  if (parks > 1) {
    terms.push({ kind: 'random', covariate: 'park', levels: parks });
    if (walls) terms.push({ kind: 'random', covariate: 'wall', levels: parks * STRIPS });
  }
  return terms;
}

/**
 * Learns which hit a ball is, given that it is not an out: one multinomial logit (docs/decisions/023-hit-types.md) for balls on
 * the ground, one for liners, one for flies with popups, on bearing by exit speed (a tensor), ball kind, park, and in the air
 * the strip of the park that the ball flies over. Kinds, parks and strips are random levels, drawn toward none by as much as the data ask.
 *
 * The balls are those on which nobody was out. An error or a fielder's choice without an out counts as a single: the batter
 * stands on first as after one, and bases thrown away after that belong to the throw, not to the ball. Home runs are
 * left out: no defender could have had them.
 *
 * With fewer than 40 singles or extra-base hits the group's shares stand for the model; with fewer than 5 triples these are
 * a constant part of the extra bases.
 *
 * @param learnt rows of the table to learn from, of those that hitRows gives
 */
export function* hitFits(
  plays: PlayTable,
  choices: FitChoices = {},
  learnt: readonly number[] = hitRows(plays),
): Fitting<HitModel> {
  const groups = yield* together(HIT_GROUPS.map((_, g) => groupFit(g, plays, choices, learnt)));
  return { parks: plays.parks, groups };
}

function* groupFit(g: number, plays: PlayTable, choices: FitChoices, learnt: readonly number[]): Fitting<HitGroup> {
  const { name, kinds, walls, usual } = HIT_GROUPS[g];
  const rows = learnt.filter((row) => GROUP_OF_KIND[plays.ballKind[row]] === g);
  const category = Uint8Array.from(rows, (row) => hitOf(plays, row));
  const counts = usual.map((_, hit) => category.reduce((n, own) => n + (own === hit ? 1 : 0), 0));
  const shares = counts.map((n, hit) => (n + USUAL_WEIGHT * usual[hit]) / (rows.length + USUAL_WEIGHT));
  if (Math.min(counts[0], counts[1] + counts[2]) < FEWEST) return { name, fitted: null, shares };
  const categories = counts[2] >= FEWEST_TRIPLES && counts[1] > 0 ? HITS : 2;
  const full = categories === HITS ? `hit, ${name}` : `hit, ${name}, without triples`;
  const own = hitTerms(kinds.length, plays.parks.length, walls);
  const terms = choices.terms?.(full, own) ?? own;
  const settings = { ridge: WEAK_PRIOR, ...chosenSettings<FittedMultinomial>(full, terms, choices) };
  const fitted = yield* oneMultinomialFit({ name: full, categories, terms }, settings, () => ({
    count: rows.length,
    covariates: ballColumns(plays, rows, plays.park),
    category: category.map((hit) => Math.min(hit, categories - 1)),
  }));
  return { name, fitted, shares };
}

/** Every fit of it. */
export function listHitFits({ groups }: HitModel): FittedMultinomial[] {
  return groups.flatMap(({ fitted }) => fitted ?? []);
}

/** Rows of a table that a hit model learns from. */
export function hitRows(plays: PlayTable): number[] {
  const rows: number[] = [];
  for (let row = 0; row < plays.count; row += 1)
    if (plays.outsMade[row] === 0 && plays.result[row] !== HOME_RUN) rows.push(row);
  return rows;
}

/** The hit that a play counts as: 0 single, 1 double, 2 triple. */
export function hitOf(plays: PlayTable, row: number): number {
  const result = plays.result[row];
  return result === TRIPLE ? 2 : result === DOUBLE ? 1 : 0;
}

/** Covariates; `park` has a model's level of the park of each row of the table, -1 for one that it does not know. */
function ballColumns(plays: PlayTable, rows: ArrayLike<number>, park: ArrayLike<number>) {
  const strip = (row: number) => {
    const bearing = plays.bearingDeg[row];
    return Math.min(Math.max(Math.floor(bearing / STRIP_DEG) + STRIPS / 2, 0), STRIPS - 1);
  };
  const wall = (row: number) => (park[row] < 0 || Number.isNaN(strip(row)) ? -1 : park[row] * STRIPS + strip(row));
  return {
    bearing: Float64Array.from(rows, (row) => plays.bearingDeg[row]),
    speed: Float64Array.from(rows, (row) => plays.exitSpeedMph[row]),
    kind: Uint8Array.from(rows, (row) => plays.ballKind[row]),
    park: Int32Array.from(rows, (row) => park[row]),
    wall: Int32Array.from(rows, wall),
  };
}

/**
 * Chances of single, double and triple for the given rows of a table were they hits: rows.length * 3, each three add up to
 * one. A park that the model does not know is an average park, a missing bearing or speed an average ball's.
 */
export function predictHits(model: HitModel, plays: PlayTable, rows: ArrayLike<number>): Float64Array {
  const out = new Float64Array(rows.length * HITS);
  const levels = new Map(model.parks.map((name, level) => [name, level]));
  const levelOf = plays.parks.map((name) => levels.get(name) ?? -1);
  const park = plays.park.map((own) => (own < 0 ? -1 : levelOf[own]));
  model.groups.forEach(({ fitted, shares }, g) => {
    const places: number[] = [];
    for (let k = 0; k < rows.length; k += 1) if (GROUP_OF_KIND[plays.ballKind[rows[k]]] === g) places.push(k);
    if (fitted === null) {
      for (const k of places) out.set(shares, k * HITS);
      return;
    }
    const own = places.map((k) => rows[k]);
    const chances = predictCategories(fitted, ballColumns(plays, own, park), own.length);
    const triples = chances.length === HITS ? Number.NaN : shares[2] / (shares[1] + shares[2]);
    places.forEach((k, i) => {
      out[k * HITS] = chances[0][i];
      out[k * HITS + 1] = chances.length === HITS ? chances[1][i] : chances[1][i] * (1 - triples);
      out[k * HITS + 2] = chances.length === HITS ? chances[2][i] : chances[1][i] * triples;
    });
  });
  return out;
}
