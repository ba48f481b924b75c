import type { Covariates } from '../models/design.ts';
import { type FittedModel, predictMean } from '../models/fitted-model.ts';
import { type Fitting, together } from '../models/fitting.ts';
import type { Term } from '../models/terms.ts';
import { chanceFit, type FitChoices } from './fit-chance.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';

/** What may be known of a gather. */
type Fact = 'start' | 'place' | 'time';
/**
 * Terms by what is known of a gather; a level's place in the list is its number, 0 the best. A level is fitted to all rows of which its facts
 * are known, whatever else is, and answers for those of which no better level's are. The last level needs nothing.
 */
export type Knowledge = readonly {
  readonly name: string;
  readonly needs: readonly Fact[];
  readonly terms: readonly Term[];
}[];

/** Covariates of some gathers: `own` numbers the grounders, `places` says where they are in the list they came from. */
export type ColumnsOf = (own: Int32Array, places: Int32Array) => Covariates;

function isKnown(grounders: Grounders, at: number, fact: Fact): boolean {
  const { table } = grounders;
  const row = grounders.row[at];
  switch (fact) {
    case 'place':
      return !Number.isNaN(table.gatherXFt[row]) && !Number.isNaN(table.gatherYFt[row]);
    case 'time':
      return !Number.isNaN(table.gatherTimeS[row]);
    case 'start':
      return !Number.isNaN(grounders.starts[(at * INFIELD_SIZE + table.gatheredBy[row] - 1) * 2]);
  }
}

/** Whether what a level needs is known of a gather; `at` numbers the grounders. */
export function isEnoughFor(grounders: Grounders, at: number, { needs }: Knowledge[number]): boolean {
  return needs.every((fact) => isKnown(grounders, at, fact));
}

function bestLevel(knowledge: Knowledge, grounders: Grounders, at: number): number {
  return knowledge.findIndex((known) => isEnoughFor(grounders, at, known));
}

/** By level, the share of some gathers that it answers for; `rows` is by number of the grounder. */
export function sharesByLevel(knowledge: Knowledge, grounders: Grounders, rows: Int32Array): number[] {
  const shares = knowledge.map(() => 0);
  for (const at of rows) shares[bestLevel(knowledge, grounders, at)] += 1 / rows.length;
  return shares;
}

/** One model for each level of knowledge. `rows` and `response` are by number of the grounder. */
export function fitsByKnowledge(
  name: string,
  knowledge: Knowledge,
  grounders: Grounders,
  rows: Int32Array,
  columnsOf: ColumnsOf,
  response: ArrayLike<number>,
  choices: FitChoices,
): Fitting<FittedModel[]> {
  const dataOf = (known: Knowledge[number]) => {
    const places = placesWhere(rows, (at) => isEnoughFor(grounders, at, known));
    const own = Int32Array.from(places, (k) => rows[k]);
    return {
      count: own.length,
      covariates: columnsOf(own, places),
      response: Float64Array.from(own, (at) => response[at]),
    };
  };
  return together(
    knowledge.map((known) => chanceFit(`${name} by ${known.name}`, known.terms, () => dataOf(known), choices)),
  );
}

/** Chances of gathers, each by the model of what is known of it. */
export function predictByKnowledge(
  levels: readonly FittedModel[],
  knowledge: Knowledge,
  grounders: Grounders,
  rows: Int32Array,
  columnsOf: ColumnsOf,
): Float64Array {
  const out = new Float64Array(rows.length);
  levels.forEach((model, level) => {
    const places = placesWhere(rows, (at) => level === bestLevel(knowledge, grounders, at));
    if (places.length === 0) return;
    const own = Int32Array.from(places, (k) => rows[k]);
    const chances = predictMean(model, columnsOf(own, places), places.length);
    places.forEach((k, i) => {
      out[k] = chances[i];
    });
  });
  return out;
}

function placesWhere(rows: Int32Array, wanted: (at: number) => boolean): Int32Array {
  const places: number[] = [];
  rows.forEach((at, k) => {
    if (wanted(at)) places.push(k);
  });
  return Int32Array.from(places);
}
