import type { ClassPlays } from '../chances/class-plays.ts';
import { WHOLE } from '../chances/grades.ts';
import { INFIELD_SIZE } from '../chances/grounders.ts';
import { POSITION_COUNT } from '../diamond/play-codes.ts';
import { logit } from '../numeric/logistic.ts';
import { IN_HAND } from './directions.ts';
import { SkillRowList, type SkillRows } from './skill-rows.ts';

/**
 * Rows of finish (method.md 10): grounders that a known infielder gathered, with the gathered mark and what it came to. `gathered` has the length
 * of the plays.
 */
export function collectFinishRows(plays: ClassPlays, gathered: Float64Array): SkillRows {
  const list = new SkillRowList();
  const { table } = plays;
  for (let at = 0; at < plays.count; at += 1) {
    const row = plays.row[at];
    const position = table.gatheredBy[row];
    // A mark of 0 or 1 taught nothing, and only the result is known of a play of grade `whole`.
    if (position === 0 || position > INFIELD_SIZE || plays.grade[at] === WHOLE) continue;
    if (!(gathered[at] > 0 && gathered[at] < 1)) continue;
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
