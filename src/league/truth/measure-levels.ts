import type { Random } from '../../numeric/random.ts';
import type { Progress } from '../../progress.ts';
import type { FieldTimeColumns } from '../season/field-time.ts';
import type { LeagueTruth, SkillLevels } from './league-truth.ts';
import { measureFinish } from './measure-finish.ts';
import { measureReach } from './measure-reach.ts';

const STEPS = 100;

/** True levels of everybody at every infield position (1 to 6) he played, ordered by position, then person. */
export function measureLevels(
  truth: Omit<LeagueTruth, 'levels'>,
  time: FieldTimeColumns,
  random: Random,
  progress: Progress,
): SkillLevels {
  const pairs = new Set<number>();
  for (let row = 0; row < time.position.length; row += 1) {
    if (time.position[row]! <= 6) pairs.add(time.position[row]! * 1e6 + time.fielder[row]!);
  }
  const ordered = [...pairs].sort((a, b) => a - b);
  const person = Int32Array.from(ordered, (pair) => pair % 1e6);
  const position = Uint8Array.from(ordered, (pair) => Math.floor(pair / 1e6));
  progress.stage('true skills', STEPS);
  const trueReach = measureReach(truth, person, position, (share) => progress.advance(Math.round(0.7 * STEPS * share)));
  const trueFinish = measureFinish(truth, person, position, random);
  progress.finish();
  return { person, position, trueReach, trueFinish };
}
