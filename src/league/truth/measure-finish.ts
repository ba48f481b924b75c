import type { Random } from '../../numeric/random.ts';
import { allocateBallPath } from '../physics/ball-path.ts';
import { finishGrounder } from '../physics/finish-grounder.ts';
import { SKILL_STRIDE } from '../physics/men.ts';
import { allocatePlayDraws, drawPlay, type PlayDraws, type PlayDrawsDraft } from '../physics/play-draws.ts';
import { allocatePursuit, type Pursuit, pursueBall } from '../physics/pursue-ball.ts';
import { allocateOutcome, allocateSituation } from '../physics/situation.ts';
import type { LeagueTruth } from './league-truth.ts';
import { fillSituation } from './replay-ball.ts';
import { prepareStandard, standardRows } from './standard-balls.ts';

const STANDARD_BALLS = 6000;
const GATHERS_A_POSITION = 700;
/** Lucks of throw and runners tried on each standard gather. */
const LUCKS = 3;

/** One ball in an average man's hands, with the luck of what follows. */
interface StandardGather {
  readonly row: number;
  readonly pursuit: Pursuit;
  readonly starts: Float64Array;
  readonly lucks: readonly PlayDraws[];
}

const situation = allocateSituation();
const outcome = allocateOutcome();

/** For each (person, position) the extra outs per 100 gathers when he finishes what average men gathered. */
export function measureFinish(
  truth: Omit<LeagueTruth, 'levels'>,
  person: Int32Array,
  position: Uint8Array,
  random: Random,
): Float64Array {
  const men = truth.averageSkills.slice(SKILL_STRIDE);
  const gathers = collectGathers(truth, men, random);
  const usual = gathers.map((list, p) => (p === 0 ? 0 : outShare(truth, list, men)));
  return Float64Array.from(person, (who, i) => {
    const p = position[i]!;
    const at = (p - 1) * SKILL_STRIDE;
    men.set(truth.skills.subarray(who * SKILL_STRIDE, (who + 1) * SKILL_STRIDE), at);
    const own = outShare(truth, gathers[p]!, men);
    men.set(truth.averageSkills.subarray(at + SKILL_STRIDE, at + 2 * SKILL_STRIDE), at);
    return gathers[p]!.length === 0 ? Number.NaN : 100 * (own - usual[p]!);
  });
}

/** What average men gather by position, 1 to 6, in replays of the standard balls from the usual starts. */
function collectGathers(truth: Omit<LeagueTruth, 'levels'>, men: Float64Array, random: Random): StandardGather[][] {
  const lists: StandardGather[][] = Array.from({ length: 7 }, () => []);
  const path = allocateBallPath();
  const starts = new Float64Array(18);
  const draws: PlayDrawsDraft = allocatePlayDraws();
  const pursuit = allocatePursuit();
  for (const row of standardRows(truth.balls, STANDARD_BALLS)) {
    prepareStandard(truth.balls, row, truth.batsLeft[truth.balls.batter[row]!] === 1, path, starts);
    drawPlay(random.next, draws);
    pursueBall(path, starts, men, draws, false, truth.balls.surface[row]!, pursuit);
    const list = lists[pursuit.gatheredBy];
    if (pursuit.gatheredBy === 0 || list === undefined || list.length >= GATHERS_A_POSITION) continue;
    const lucks = Array.from({ length: LUCKS }, () => {
      const luck = allocatePlayDraws();
      drawPlay(random.next, luck);
      return luck;
    });
    list.push({ row, pursuit: { ...pursuit }, starts: starts.slice(), lucks });
  }
  return lists;
}

function outShare(truth: Omit<LeagueTruth, 'levels'>, gathers: readonly StandardGather[], men: Float64Array): number {
  let outs = 0;
  for (const { row, pursuit, starts, lucks } of gathers) {
    fillSituation(truth, row, situation);
    for (const luck of lucks) {
      finishGrounder(situation, pursuit, starts, men, luck, false, outcome);
      if (outcome.outsMade > 0) outs += 1;
    }
  }
  return outs / (gathers.length * LUCKS || 1);
}
