import { createHash } from 'node:crypto';
import type { PlayTable } from '../../chances/play-table.ts';
import { SIDES } from '../../diamond/play-codes.ts';
import type { Unit } from '../../jobs/jobs.ts';
import type { PlanQuestion } from '../../plans/plan-types.ts';
import type { Situation } from './situations.ts';

/** A question for many: nothing of it needs more than JSON, and the side is always said. */
export type BatchQuestion = Omit<PlanQuestion, 'swap' | 'side'> & { readonly side: 'L' | 'R' };

/** What is asked about one batter: a unit of work. */
export type BatterQuestions = readonly BatchQuestion[];

/** What is the same for all plans of a batch. */
export type SharedQuestion = Omit<BatchQuestion, 'batter' | 'side' | 'outs' | 'bases'>;

export interface BatterAtSide {
  readonly batter: string;
  readonly side: 'L' | 'R';
}

/** A side from which fewer of a man's balls came is not planned for unless asked. */
const LEAST_SHARE = 0.1;

/** Each batter in each situation. The key is made from the question alone, so that the same question has the same key in any batch. */
export function planUnits(
  batters: readonly BatterAtSide[],
  situations: readonly Situation[],
  shared: SharedQuestion,
): Unit<BatchQuestion>[] {
  return batters.flatMap((batter) =>
    situations.map(({ outs, bases }) => {
      const question = { ...batter, outs, bases, ...shared };
      return { key: planId(question), question };
    }),
  );
}

/**
 * The questions of a batter together, in their order: his plans share what does not depend on the situation, so that whoever has
 * one of them to make makes all.
 */
export function batterUnits(plans: readonly Unit<BatchQuestion>[]): Unit<BatterQuestions>[] {
  const together = new Map<string, Unit<BatchQuestion>[]>();
  for (const plan of plans) {
    const { batter, side } = plan.question;
    const who = `${side} ${batter}`;
    together.set(who, [...(together.get(who) ?? []), plan]);
  }
  return [...together.values()].map((own) => ({
    key: digest(own.map(({ key }) => key).join()),
    question: own.map(({ question }) => question),
  }));
}

/** Sixteen hexadecimal digits that name a question. */
export function planId(question: BatchQuestion): string {
  return digest(questionText(question));
}

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 16);
}

/** A question as JSON with its settings in the order of the alphabet: the same text for the same question, wherever it has been. */
export function questionText(question: BatchQuestion): string {
  const asked = Object.entries(question).filter(([, value]) => value !== undefined);
  return JSON.stringify(Object.fromEntries(asked.sort(([a], [b]) => compare(a, b))));
}

/** Whether a plan was asked for with these settings, whoever bats in whatever situation. */
export function isAskedAlike({ batter, side, outs, bases, ...rest }: BatchQuestion, shared: SharedQuestion): boolean {
  const text = (settings: SharedQuestion) => questionText({ batter, side, outs, bases, ...settings });
  return text(rest) === text(shared);
}

/**
 * Everybody who batted for another club in the book's last season, by club and then as `nameOf` sorts; twice who bats from both sides. A man
 * counts for the club that he batted for last.
 */
export function opposingBatters(table: PlayTable, defence: string, nameOf: (id: string) => string): BatterAtSide[] {
  let lastSeason = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < table.count; row += 1) lastSeason = Math.max(lastSeason, table.season[row]!);
  const lastDay = new Map<number, number>();
  const club = new Map<number, string>();
  for (let row = 0; row < table.count; row += 1) {
    const batter = table.batter[row]!;
    if (batter < 0 || table.season[row] !== lastSeason || table.date[row]! < (lastDay.get(batter) ?? 0)) continue;
    lastDay.set(batter, table.date[row]!);
    club.set(batter, table.teams[table.battingTeam[row]!]!);
  }
  const sides = countSides(table);
  return [...club]
    .filter(([, team]) => team !== defence)
    .map(([person, team]) => ({ person, team, id: table.people[person]! }))
    .sort((a, b) => compare(a.team, b.team) || compare(nameOf(a.id), nameOf(b.id)) || compare(a.id, b.id))
    .flatMap(({ person, id }) => sidesOf(sides, person).map((side) => ({ batter: id, side })));
}

/** The side from which more of a man's balls came; right when as many, or none. */
export function usualSide(table: PlayTable, id: string): 'L' | 'R' {
  const sides = countSides(table);
  const person = table.people.indexOf(id);
  return sides[2 * person]! > sides[2 * person + 1]! ? 'L' : 'R';
}

/** Balls by person and code of SIDES, in turn. */
function countSides(table: PlayTable): Int32Array {
  const counts = new Int32Array(2 * table.people.length);
  for (let row = 0; row < table.count; row += 1) {
    if (table.batter[row]! >= 0) counts[2 * table.batter[row]! + table.batterSide[row]!]! += 1;
  }
  return counts;
}

function sidesOf(counts: Int32Array, person: number): readonly ('L' | 'R')[] {
  const all = counts[2 * person]! + counts[2 * person + 1]!;
  return SIDES.filter((_, side) => counts[2 * person + side]! >= LEAST_SHARE * all);
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
