import { INFIELD_SIZE } from '../chances/grounders.ts';
import { POSITION_COUNT } from '../diamond/play-codes.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { logit } from '../numeric/logistic.ts';
import { IN_HAND } from './directions.ts';
import { SkillRowList, type SkillRows } from './skill-rows.ts';

/** Rows of finish (method.md 10): grounders that a known infielder gathered, with the balanced gathered mark and what it came to. */
export function collectFinishRows({ plays, gathered }: ClassLedger): SkillRows {
  const list = new SkillRowList();
  const { table } = plays;
  for (let at = 0; at < plays.count; at += 1) {
    const row = plays.row[at];
    const position = table.gatheredBy[row];
    // A mark of 0 or 1 belongs to a group that taught nothing; NaN to a play of which only the result is known.
    if (position === 0 || position > INFIELD_SIZE || !(gathered[at] > 0 && gathered[at] < 1)) continue;
    const man = table.fielder[row * POSITION_COUNT + position - 1];
    if (man < 0) continue;
    list.add({
      man,
      season: plays.season[at],
      game: table.game[row],
      position,
      direction: IN_HAND,
      logit: logit(gathered[at]),
      outcome: plays.closed[at],
      worth: 1,
      surplus: 0,
    });
  }
  return list.rows();
}
