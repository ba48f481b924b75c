import type { Random } from '../../src/numeric/random.ts';
import type { SkillRowList } from '../../src/ratings/skill-rows.ts';

/** One man's chances at a position by the model itself. */
export interface InventedMan {
  readonly man: number;
  readonly position: number;
  readonly shift: number;
  readonly rows: number;
  readonly worth: number;
  /** What the league's surface says of the next chance, logits. */
  logit(): number;
  /** What came of it beyond its worth; nothing unless given. */
  surplus?(outcome: number): number;
}

/** Adds his rows, each a game of one season; the logits of his chances. */
export function addInvented(
  list: SkillRowList,
  random: Random,
  { man, position, shift, rows, worth, ...own }: InventedMan,
): number[] {
  return Array.from({ length: rows }, (_, game) => {
    const logit = own.logit();
    const outcome = random.next() < 1 / (1 + Math.exp(-logit - shift)) ? 1 : 0;
    const surplus = own.surplus?.(outcome) ?? 0;
    list.add({ man, season: 2031, game, position, direction: 0, logit, outcome, worth, surplus });
    return logit;
  });
}
