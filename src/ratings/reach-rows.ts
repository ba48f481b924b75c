import { BallGame } from '../chances/ball-game.ts';
import { lastAtRisk } from '../chances/chance-rows.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import { FULL } from '../chances/grades.ts';
import { POSITION_COUNT } from '../diamond/play-codes.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { logit } from '../numeric/logistic.ts';
import { directionOf } from './directions.ts';
import { SkillRowList, type SkillRows } from './skill-rows.ts';

/**
 * Rows of reach (method.md 10): on plays of grade `full` each known defender with a chance, up to the one who gathered or
 * touched the ball and lost it. `hands` has a code of HANDS by person. A gather is worth its promise less the mark of the
 * men behind him, both before balancing. Who had the ball sooner than most has a surplus; who lost it took it from the men behind him.
 */
export function collectReachRows(
  { plays, gathered }: ClassLedger,
  chances: DefenderChances,
  hands: Uint8Array,
): SkillRows {
  const list = new SkillRowList();
  const game = new BallGame(plays, chances, { draws: 0, source: new Int32Array(0) }, []);
  const { table, men, starts } = plays;
  for (let at = 0; at < plays.count; at += 1) {
    if (plays.grade[at] !== FULL) continue;
    game.setActual(at);
    const row = plays.row[at];
    const gatherer = table.gatheredBy[row] - 1;
    const last = lastAtRisk(table.gatheredBy[row], table.touchedBy[row]) - 1;
    for (let place = 0; place < men; place += 1) {
      const k = game.chanceOrder[place];
      const man = table.fielder[row * POSITION_COUNT + k];
      const h = game.given[k];
      if (h > 0 && h < 1 && man >= 0) {
        const [x, y] = [starts[(at * men + k) * 2], starts[(at * men + k) * 2 + 1]];
        chances.standAt(k, x, y);
        // In the air a man who drops the ball had got to it, which is all that h speaks of.
        const had = k === (chances.isCalledFor ? last : gatherer);
        const behind = game.value[place + 1];
        list.add({
          man,
          season: plays.season[at],
          game: table.game[row],
          position: k + 1,
          direction: directionOf(chances.describe(), x, y, hands[man]),
          logit: logit(h),
          outcome: had ? 1 : 0,
          worth: game.promise[k] - behind,
          surplus: had ? gathered[at] - game.promise[k] : k === last ? -behind : 0,
        });
      }
      if (k === last) break;
    }
  }
  return list.rows();
}
