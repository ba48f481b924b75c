import { BallGame } from '../../src/chances/ball-game.ts';
import { chooseEvenDraws } from '../../src/chances/even-draws.ts';
import { FULL } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import { REACH } from '../../src/ledger/entry-kinds.ts';
import { DEMO_DRAWS, type ScoredLeague } from '../helpers/scored-league.ts';

/** One man at one position in one league, and who stood where the ball came by first. Rates per 100 chances. */
export interface ManAndNeighbour {
  readonly chances: number;
  readonly trueReach: number;
  /** True reach of the man beside him, mean over the first man's chances. */
  readonly neighbourReach: number;
  readonly reach: number;
  /** Gathers less his own chance as if he were alone, over the same chances: balls cut off before him count against him. */
  readonly naive: number;
}

/** Sums of one man; `beside` is the chance-weighted true reach of his neighbour. */
interface Sums {
  alone: number;
  beside: number;
  reach: number;
  gathers: number;
}

/** Men of `position` on plays of grade `full` with the men of `beside`, those with `fewest` or more chances as if alone. */
export function menAndNeighbours(
  scored: ScoredLeague,
  position: number,
  beside: number,
  fewest: number,
): ManAndNeighbour[] {
  const { ledger, grounders, models, league } = scored;
  const { table } = grounders;
  const { levels } = league.truth;
  const truth = new Map<string, number>();
  for (const [k, person] of levels.person.entries()) truth.set(`${person} ${levels.position[k]}`, levels.trueReach[k]!);
  const reachOf = new Float64Array(grounders.count);
  const { entries } = ledger;
  for (let e = 0; e < entries.count; e += 1) {
    if (entries.kind[e] === REACH && entries.position[e] === position) reachOf[entries.play[e]!] = entries.outs[e]!;
  }
  const game = new BallGame(
    grounders,
    new GrounderChances(grounders, models),
    chooseEvenDraws(grounders, DEMO_DRAWS),
    MOVABLE_ON_GROUNDERS,
  );
  const sums = new Map<number, Sums>();
  for (let at = 0; at < grounders.count; at += 1) {
    if (ledger.grade[at] !== FULL) continue;
    const row = grounders.row[at]!;
    const man = table.fielder[row * 9 + position - 1]!;
    const own = sums.get(man) ?? { alone: 0, beside: 0, reach: 0, gathers: 0 };
    sums.set(man, own);
    game.setActual(at);
    const chance = game.reach[position - 1]!;
    own.alone += chance;
    own.beside += chance * truth.get(`${table.fielder[row * 9 + beside - 1]} ${beside}`)!;
    own.reach += reachOf[at]!;
    if (table.gatheredBy[row] === position) own.gathers += 1;
  }
  return [...sums]
    .filter(([, own]) => own.alone >= fewest)
    .map(([man, own]) => ({
      chances: own.alone,
      trueReach: truth.get(`${man} ${position}`)!,
      neighbourReach: own.beside / own.alone,
      reach: (100 * own.reach) / own.alone,
      naive: (100 * (own.gathers - own.alone)) / own.alone,
    }));
}
