import { BallGame } from '../chances/ball-game.ts';
import type { EvenDraws } from '../chances/even-draws.ts';
import { finishChances } from '../chances/finish-model.ts';
import { FULL, GROUND, WHOLE } from '../chances/grades.ts';
import type { GrounderModels } from '../chances/grounder-models.ts';
import { type Grounders, INFIELD_SIZE } from '../chances/grounders.ts';
import type { Progress } from '../progress.ts';
import { nearbyOutShares } from './nearby-out-shares.ts';

/** Marks as the models give them, before balancing. Columns have the length of the grounders unless said otherwise. */
export interface RawMarks {
  readonly draws: number;
  /** count * draws */
  readonly openingByDraw: Float64Array;
  /** NaN below grade `full`. */
  readonly set: Float64Array;
  /** NaN for grade `whole`; 0 when nobody gathered. */
  readonly gathered: Float64Array;
  /** count * 6: the average chances of positions 1 to 6 to make the out, by which undivided entries are shared. */
  readonly share: Float64Array;
  /** Grade of each play; lower than the grounder's own when there was nothing to compare its placement with. */
  readonly grade: Uint8Array;
}

/** Computes raw marks of all grounders. `direct` serves where a book has no placements to draw from. */
export function computeRawMarks(
  grounders: Grounders,
  models: GrounderModels,
  draws: EvenDraws,
  direct: Float64Array,
  progress: Progress,
): RawMarks {
  const { count } = grounders;
  const raw = {
    draws: draws.draws,
    openingByDraw: new Float64Array(count * draws.draws),
    set: new Float64Array(count).fill(Number.NaN),
    gathered: new Float64Array(count).fill(Number.NaN),
    share: new Float64Array(count * INFIELD_SIZE),
    grade: Uint8Array.from(grounders.grade),
  };
  const finish = finishChances(models.finish, grounders);
  const game = new BallGame(models, grounders, draws);
  progress.stage('marks', count);
  for (let at = 0; at < count; at += 1) {
    if (draws.source[at * draws.draws] >= 0) {
      game.playOpening(at, raw.openingByDraw, at * draws.draws, raw.share, at * INFIELD_SIZE);
    } else {
      raw.openingByDraw.fill(direct[at], at * draws.draws, (at + 1) * draws.draws);
      nearbyOutShares(grounders, at, raw.share, at * INFIELD_SIZE);
      if (raw.grade[at] === FULL) raw.grade[at] = GROUND;
    }
    if (raw.grade[at] === FULL) {
      game.setActual(at);
      raw.set[at] = game.value[0];
    }
    if (raw.grade[at] !== WHOLE) raw.gathered[at] = finish[at];
    if ((at & 1023) === 0) progress.advance(at);
  }
  progress.finish();
  return raw;
}
