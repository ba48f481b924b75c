import { ENTRY_KINDS } from '../ledger/entry-kinds.ts';
import { type GameCells, RATED_KINDS } from './game-cells.ts';
import type { PoissonWeights } from './poisson-weights.ts';
import { PER, setChances } from './rates.ts';
import { RowReplicates } from './row-replicates.ts';
import { type Interval80, middle80, shareAboveZero } from './spread.ts';

/** A value and the middle 80 % of its replicates; the interval is NaN where there are too few games, a rate where there are too few chances. */
export interface Estimate extends Interval80 {
  readonly value: number;
}

/** One less another. */
export interface Difference extends Estimate {
  /** Share of replicates in which the one is above the other. */
  readonly chanceAbove: number;
}

export const COMPARED_SUMS = [...ENTRY_KINDS, 'net'] as const;
export const COMPARED_RATES = [...RATED_KINDS, 'net'] as const;

/** By COMPARED_SUMS, runs; by COMPARED_RATES, outs per 100 chances. */
export interface Compared<Value> {
  readonly runs: readonly Value[];
  readonly outsPer100: readonly Value[];
}

export interface RowComparison {
  readonly rows: readonly Compared<Estimate>[];
  /** The first row less each other one; entry k is about row k + 1. */
  readonly firstLess: readonly Compared<Difference>[];
}

interface Replicated {
  readonly value: number;
  readonly replicates: Float64Array;
}

/**
 * Compares the rows of cells (method.md 11), each a defender's games. Differences are taken within each replicate, so that what
 * men of the same games have in common falls out.
 */
export function compareRows<Row>(cells: GameCells<Row>, weights: PoissonWeights): RowComparison {
  const row = new RowReplicates(weights);
  const replicated = cells.rows.map((_, r): Compared<Replicated> => {
    row.setRow({ game: cells.game, from: cells.start[r], to: cells.start[r + 1] });
    return { runs: replicateTotals(row, cells.runs), outsPer100: replicateRates(row, cells.fullOuts, cells.chances) };
  });
  const [first, ...others] = replicated;
  return {
    rows: replicated.map((own) => mapBoth(own, estimateOf)),
    firstLess: others.map((other) => ({
      runs: first.runs.map((one, k) => differenceOf(one, other.runs[k])),
      outsPer100: first.outsPer100.map((one, k) => differenceOf(one, other.outsPer100[k])),
    })),
  };
}

function mapBoth<From, To>({ runs, outsPer100 }: Compared<From>, map: (value: From) => To): Compared<To> {
  return { runs: runs.map(map), outsPer100: outsPer100.map(map) };
}

function replicateTotals(row: RowReplicates, columns: readonly Float64Array[]): Replicated[] {
  const kinds = columns.map((column): Replicated => {
    const replicates = new Float64Array(row.replicates);
    return { value: row.totalsInto(column, replicates), replicates };
  });
  return [...kinds, sumOf(kinds)];
}

function replicateRates(row: RowReplicates, columns: readonly Float64Array[], chances: Float64Array): Replicated[] {
  const isKnown = setChances(row, chances);
  const kinds = columns.map((column): Replicated => {
    const replicates = new Float64Array(row.replicates).fill(Number.NaN);
    if (!isKnown) return { value: Number.NaN, replicates };
    const value = PER * row.ratiosInto(column, replicates);
    return { value, replicates: replicates.map((rate) => PER * rate) };
  });
  return [...kinds, sumOf(kinds)];
}

function sumOf(parts: readonly Replicated[]): Replicated {
  const replicates = new Float64Array(parts[0].replicates.length);
  for (const part of parts) {
    part.replicates.forEach((value, k) => {
      replicates[k] += value;
    });
  }
  return { value: parts.reduce((sum, { value }) => sum + value, 0), replicates };
}

const estimateOf = ({ value, replicates }: Replicated): Estimate => ({ value, ...middle80(replicates) });

function differenceOf(one: Replicated, other: Replicated): Difference {
  const replicates = one.replicates.map((value, k) => value - other.replicates[k]);
  const difference = { value: one.value - other.value, replicates };
  return { ...estimateOf(difference), chanceAbove: shareAboveZero(replicates) };
}
