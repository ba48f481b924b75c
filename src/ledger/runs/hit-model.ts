import { type FitChoices, fitChance } from '../../chances/fit-chance.ts';
import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS, type BallKind, RESULTS } from '../../diamond/play-codes.ts';
import { type FittedModel, predictMean } from '../../models/fitted-model.ts';
import type { Term } from '../../models/terms.ts';

/** A chance by ball, or one share for all balls where there was too little to learn from. */
export interface HitChance {
  readonly fitted: FittedModel | null;
  /** Share in the book, drawn a little toward the usual one; serves when `fitted` is null. */
  readonly share: number;
}

/** Which hit a ball of some kinds is when it is one: two nested regressions. */
export interface HitGroup {
  readonly name: string;
  /** Double or triple, given a hit. */
  readonly extra: HitChance;
  /** Triple, given double or triple. */
  readonly triple: HitChance;
}

export interface HitModel {
  /** Parks in the order of the models' levels. */
  readonly parks: readonly string[];
  /** In the order of HIT_GROUPS. */
  readonly groups: readonly HitGroup[];
}

/** Kinds of ball whose hits are alike, with usual shares of extra bases and of triples among those, from memory. */
const HIT_GROUPS: readonly {
  readonly name: string;
  readonly kinds: readonly BallKind[];
  readonly extra: number;
  readonly triple: number;
}[] = [
  { name: 'ground', kinds: ['ground', 'bunt'], extra: 0.08, triple: 0.04 },
  { name: 'liner', kinds: ['liner'], extra: 0.28, triple: 0.07 },
  { name: 'fly', kinds: ['fly', 'popup'], extra: 0.5, triple: 0.1 },
];

/** A chance is fitted when this many balls went either way. */
const FEWEST_EITHER_WAY = 40;
/** The usual share counts as much as this many balls. */
const USUAL_WEIGHT = 20;

const [SINGLE, DOUBLE, TRIPLE, HOME_RUN] = (['single', 'double', 'triple', 'home_run'] as const).map((name) =>
  RESULTS.indexOf(name),
);
const GROUP_OF_KIND = BALL_KINDS.map((kind) => HIT_GROUPS.findIndex(({ kinds }) => kinds.includes(kind)));

function extraTerms(kinds: number, parks: number): readonly Term[] {
  const bearing = { covariate: 'bearing', lo: -46, hi: 46, segments: 16 };
  const speed = { covariate: 'speed', lo: 20, hi: 120, segments: 4 };
  return [{ kind: 'tensor', margins: [bearing, speed] }, ...levelTerms(kinds, parks)];
}

function tripleTerms(kinds: number, parks: number): readonly Term[] {
  return [
    { kind: 'smooth', margin: { covariate: 'bearing', lo: -46, hi: 46, segments: 10 } },
    { kind: 'smooth', margin: { covariate: 'speed', lo: 20, hi: 120, segments: 4 } },
    ...levelTerms(kinds, parks),
  ];
}

/** Levels that there are at least two of. */
function levelTerms(kinds: number, parks: number): Term[] {
  const terms: Term[] = [];
  if (kinds > 1) terms.push({ kind: 'random', covariate: 'kind', levels: BALL_KINDS.length });
  if (parks > 1) terms.push({ kind: 'random', covariate: 'park', levels: parks });
  return terms;
}

/**
 * Learns which hit a ball is, given that it is not an out: P(extra bases), then P(triple | extra bases), each a penalised
 * logistic regression on bearing by exit speed (a tensor; for triples two smooths), ball kind and park (random levels), one set
 * each for balls on the ground, liners, and flies with popups.
 *
 * The balls are those on which nobody was out. An error or a fielder's choice without an out counts as a single: the batter
 * stands on first as after one, and bases thrown away after that belong to the throw, not to the ball. Home runs are
 * left out: no defender could have had them.
 *
 * With fewer than 40 balls either way a share of the group stands for the regression. Throws FitFailure.
 */
export function fitHits(plays: PlayTable, choices: FitChoices = {}): HitModel {
  const rows: number[][] = HIT_GROUPS.map(() => []);
  for (let row = 0; row < plays.count; row += 1) {
    if (plays.outsMade[row] === 0 && plays.result[row] !== HOME_RUN) rows[GROUP_OF_KIND[plays.ballKind[row]]].push(row);
  }
  const { parks } = plays;
  const groups = HIT_GROUPS.map(({ name, kinds, extra, triple }, g) => {
    const long = rows[g].filter((row) => hitCode(plays, row) > SINGLE);
    const questions: Record<'extra' | 'triple', Question> = {
      extra: {
        name: `extra bases, ${name}`,
        least: DOUBLE,
        usual: extra,
        terms: extraTerms(kinds.length, parks.length),
      },
      triple: { name: `triple, ${name}`, least: TRIPLE, usual: triple, terms: tripleTerms(kinds.length, parks.length) },
    };
    return {
      name,
      extra: fitChanceOf(questions.extra, plays, rows[g], choices),
      triple: fitChanceOf(questions.triple, plays, long, choices),
    };
  });
  return { parks, groups };
}

/** Result code of the hit that a play counts as. */
function hitCode(plays: PlayTable, row: number): number {
  const result = plays.result[row];
  return result === DOUBLE || result === TRIPLE ? result : SINGLE;
}

/** The chance that a hit is at least `least` (a result code). */
interface Question {
  readonly name: string;
  readonly least: number;
  readonly usual: number;
  readonly terms: readonly Term[];
}

function fitChanceOf(
  { name, least, usual, terms }: Question,
  plays: PlayTable,
  rows: readonly number[],
  choices: FitChoices,
): HitChance {
  const response = Float64Array.from(rows, (row) => (hitCode(plays, row) >= least ? 1 : 0));
  const times = response.reduce((sum, y) => sum + y, 0);
  const share = (times + USUAL_WEIGHT * usual) / (rows.length + USUAL_WEIGHT);
  if (Math.min(times, rows.length - times) < FEWEST_EITHER_WAY) return { fitted: null, share };
  const park = Int32Array.from(rows, (row) => plays.park[row]);
  const data = { count: rows.length, covariates: { ...ballColumns(plays, rows), park }, response };
  return { fitted: fitChance(name, terms, data, choices), share };
}

function ballColumns(plays: PlayTable, rows: ArrayLike<number>) {
  return {
    bearing: Float64Array.from(rows, (row) => plays.bearingDeg[row]),
    speed: Float64Array.from(rows, (row) => plays.exitSpeedMph[row]),
    kind: Uint8Array.from(rows, (row) => plays.ballKind[row]),
  };
}

/**
 * Chances of single, double and triple for the given rows of a table were they hits: rows.length * 3, each three add up to
 * one. A park that the model does not know is an average park, a missing bearing or speed an average ball's.
 */
export function predictHits(model: HitModel, plays: PlayTable, rows: ArrayLike<number>): Float64Array {
  const out = new Float64Array(rows.length * 3);
  const levels = new Map(model.parks.map((name, level) => [name, level]));
  const levelOf = plays.parks.map((name) => levels.get(name) ?? -1);
  model.groups.forEach((group, g) => {
    const places: number[] = [];
    for (let k = 0; k < rows.length; k += 1) if (GROUP_OF_KIND[plays.ballKind[rows[k]]] === g) places.push(k);
    const own = places.map((k) => rows[k]);
    const park = Int32Array.from(own, (row) => (plays.park[row] < 0 ? -1 : levelOf[plays.park[row]]));
    const columns = { ...ballColumns(plays, own), park };
    const chances = ({ fitted, share }: HitChance) =>
      fitted === null ? new Float64Array(own.length).fill(share) : predictMean(fitted, columns, own.length);
    const [extra, triple] = [chances(group.extra), chances(group.triple)];
    places.forEach((k, i) => {
      out[k * 3] = 1 - extra[i];
      out[k * 3 + 1] = extra[i] * (1 - triple[i]);
      out[k * 3 + 2] = extra[i] * triple[i];
    });
  });
  return out;
}
