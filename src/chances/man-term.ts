import { POSITION_COUNT } from '../diamond/play-codes.ts';
import type { ModelData } from '../models/fit-model.ts';
import type { FittedModel } from '../models/fitted-model.ts';
import { type Fitting, oneFit } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';
import type { ClassPlays } from './class-plays.ts';
import { chosenSettings, type FitChoices } from './fit-chance.ts';

/** Who the rows of a fit at one position are of. */
export interface Men {
  /** By row, numbered from 1 on in the order in which they come; 0 for one whose name is not known. */
  readonly level: Uint16Array;
  /** The largest level. */
  readonly count: number;
}

/** The men at a position (1 to 9) on some plays, given by their numbers. */
export function menAt({ table, row }: Pick<ClassPlays, 'table' | 'row'>, position: number, at: Int32Array): Men {
  const levels = new Map<number, number>();
  const level = Uint16Array.from(at, (play) => {
    const own = table.fielder[row[play] * POSITION_COUNT + position - 1];
    if (own < 0) return 0;
    const known = levels.get(own) ?? levels.size + 1;
    levels.set(own, known);
    return known;
  });
  return { level, count: levels.size };
}

/**
 * A random intercept for the man: what one man is worth belongs to him. Without it the surfaces would bend to him where he stands, and a
 * chance is then not an average man's (docs/decisions/045-arms-in-the-gathered-mark.md, 049-reach-among-men.md). Rows that ask have
 * level 0, where no fitted row is but those of men without a name.
 */
export function manTerm({ count }: Men): Term {
  return { kind: 'random', covariate: 'man', levels: count + 1 };
}

/** Where the search for how far men are apart begins, logits. */
const MEN_APART = 0.5;

/** A chance fitted again to the same rows, with a term for the man beside its own; begun where the choices say, else where it ended. */
export function* fitAmongMen(
  own: FittedModel,
  rows: ModelData,
  men: Men,
  choices: FitChoices = {},
): Fitting<FittedModel> {
  const { spec } = own.design;
  const [name, terms] = [`${spec.name} among men`, [...spec.terms, manTerm(men)]];
  const coefficients = new Float64Array(own.coefficients.length + men.count + 1);
  coefficients.set(own.coefficients);
  const start = { coefficients, smoothing: [...own.smoothing, 1 / MEN_APART ** 2] };
  const settings = { ridge: own.ridge, start, ...chosenSettings(name, terms, choices) };
  return yield* oneFit({ ...spec, name, terms }, settings, () => ({
    ...rows,
    covariates: { ...rows.covariates, man: men.level },
  }));
}
