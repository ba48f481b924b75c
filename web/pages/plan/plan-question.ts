import type { Batter } from '../../api/plans.ts';
import type { Filters } from '../../state/address.ts';

/** Words of an address that make up the question; the server reads the same (server/plan-question.ts). */
export const QUESTION_WORDS = [
  'batter',
  'defence',
  'side',
  'outs',
  'runners',
  'rule',
  'depth',
  'hold',
  'outfield',
  'anywhere',
  'own_men',
  'swap',
] as const;
export type QuestionWord = (typeof QUESTION_WORDS)[number];
export type Question = Readonly<Record<QuestionWord, string>>;

/** The question of an address; who is not named in it is the man with the most balls, and a club that is not his. */
export function questionIn(
  filters: ReadonlyMap<string, string>,
  batters: readonly Batter[],
  teams: readonly string[],
): Question {
  const word = (name: QuestionWord) => filters.get(name) ?? '';
  // Nobody bats against his own club.
  const others = word('defence') === '' ? batters : batters.filter(({ team }) => team !== word('defence'));
  const most = others.reduce((best, each) => (each.balls > best.balls ? each : best), others[0] ?? NOBODY);
  const batter = word('batter') || most.id;
  const club = batters.find(({ id }) => id === batter)?.team;
  const words = Object.fromEntries(QUESTION_WORDS.map((name) => [name, word(name)])) as Record<QuestionWord, string>;
  return { ...words, batter, defence: word('defence') || (teams.find((team) => team !== club) ?? teams[0] ?? '') };
}

const NOBODY: Batter = { id: '', name: '', team: '', balls: 0 };

/** The question as filters of an address, without what is left to the situation. */
export function filtersOf(question: Question): Filters {
  return Object.fromEntries(QUESTION_WORDS.map((word) => [word, question[word] || undefined]));
}
