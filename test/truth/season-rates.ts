import { ENTRY_KINDS, FINISH, REACH } from '../../src/ledger/entry-kinds.ts';
import { sumFielders } from '../../src/ledger/season-totals.ts';
import type { ScoredLeague } from '../helpers/scored-league.ts';

/** One man at one position over all seasons of a league: what the ledger says of him beside what is true. */
export interface ManAtPosition {
  readonly fielder: number;
  chances: number;
  gathers: number;
  /** Per 100: of chances, of gathers. */
  reach: number;
  finish: number;
  readonly trueReach: number;
  readonly trueFinish: number;
}

/** Everybody who played a position. */
export function menAt(scored: ScoredLeague, position: number): ManAtPosition[] {
  const { ledger, grounders, league } = scored;
  const { levels } = league.truth;
  const men = new Map<number, ManAtPosition>();
  for (const [k, fielder] of levels.person.entries()) {
    if (levels.position[k] !== position) continue;
    const [trueReach, trueFinish] = [levels.trueReach[k]!, levels.trueFinish[k]!];
    men.set(fielder, { fielder, chances: 0, gathers: 0, reach: 0, finish: 0, trueReach, trueFinish });
  }
  for (const total of sumFielders([ledger])) {
    const man = total.position === position ? men.get(total.fielder) : undefined;
    if (man === undefined) continue;
    man.chances += total.chances;
    man.reach += 100 * total.outs[REACH]!;
    man.finish += 100 * total.outs[FINISH]!;
  }
  const { entries } = ledger;
  for (let e = 0; e < entries.count; e += 1) {
    if (ENTRY_KINDS[entries.kind[e]!] !== 'finish' || entries.position[e] !== position) continue;
    const fielder = grounders.table.fielder[grounders.row[entries.play[e]!]! * 9 + position - 1]!;
    const man = men.get(fielder);
    if (man !== undefined) man.gathers += 1;
  }
  for (const man of men.values()) {
    man.reach /= man.chances;
    man.finish /= man.gathers;
  }
  return [...men.values()];
}
