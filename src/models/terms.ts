/** One direction of a smooth: which covariate, over which range, in how many pieces, how rough it may not be. */
export interface Margin {
  readonly covariate: string;
  readonly lo: number;
  readonly hi: number;
  readonly segments: number;
  /** Order of the differences that are penalised; 2 leaves straight lines free. Default 2. */
  readonly penaltyOrder?: number;
  /** Joins `hi` to `lo`, as on a clock; needs four segments or more. Default false. */
  readonly cyclic?: boolean;
  /** Holds the term to one direction along this margin, everywhere. Not with `cyclic`. */
  readonly monotone?: 'increasing' | 'decreasing';
}

/** Restricts a smooth or tensor to the rows whose `covariate` equals `level`; elsewhere it adds nothing. */
export interface ByLevel {
  readonly covariate: string;
  readonly level: number;
}

/**
 * What a model is made of besides its intercept. Smooths and tensors are centred over the rows they were fitted on
 * (sum to zero), so that a row whose covariate is missing (NaN) gets the average row's value: nothing is added.
 * - `linear`: slope on (covariate - centre)
 * - `factor`: one free level each but level 0; covariate holds 0, 1, ..., levels - 1
 * - `random`: one level each, drawn toward zero by a variance chosen with the smoothing (a random intercept)
 * - `smooth`: cubic P-spline; cyclic or monotone through its margin, by level through `by`
 * - `tensor`: product of two or three P-spline margins, one penalty a margin
 */
export type Term =
  | { readonly kind: 'linear'; readonly covariate: string; readonly centre: number }
  | { readonly kind: 'factor'; readonly covariate: string; readonly levels: number }
  | { readonly kind: 'random'; readonly covariate: string; readonly levels: number }
  | { readonly kind: 'smooth'; readonly margin: Margin; readonly by?: ByLevel }
  | { readonly kind: 'tensor'; readonly margins: readonly Margin[]; readonly by?: ByLevel };

/** A smooth by factor: one smooth, with its own smoothing, for each level 0, 1, ..., levels - 1. Put the factor's own term beside it. */
export function smoothByFactor(margin: Margin, covariate: string, levels: number): Term[] {
  return Array.from({ length: levels }, (_, level) => ({ kind: 'smooth', margin, by: { covariate, level } }) as const);
}

/** Margins of a smooth or tensor, none for other terms. */
export function termMargins(term: Term): readonly Margin[] {
  switch (term.kind) {
    case 'smooth':
      return [term.margin];
    case 'tensor':
      return term.margins;
    default:
      return [];
  }
}

/** Covariates that a term reads, in order: those of its margins, then the one of its `by`. */
export function termCovariates(term: Term): readonly string[] {
  switch (term.kind) {
    case 'smooth':
    case 'tensor': {
      const names = termMargins(term).map((margin) => margin.covariate);
      return term.by === undefined ? names : [...names, term.by.covariate];
    }
    default:
      return [term.covariate];
  }
}

/** A name for messages and tables, such as `te(gap, arrival)`. */
export function termLabel(term: Term): string {
  const prefix = { linear: 'linear', factor: 'factor', random: 'random', smooth: 's', tensor: 'te' }[term.kind];
  const margins = termMargins(term);
  if (margins.length === 0) return `${prefix}(${termCovariates(term).join(', ')})`;
  const by = 'by' in term && term.by !== undefined ? `, ${term.by.covariate} = ${term.by.level}` : '';
  return `${prefix}(${margins.map((margin) => margin.covariate).join(', ')}${by})`;
}
