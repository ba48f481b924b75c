import type { Random } from '../../numeric/random.ts';
import type { Progress } from '../../progress.ts';
import type { FieldTimeColumns } from '../season/field-time.ts';
import type { LeagueTruth, SkillLevels } from './league-truth.ts';

export function measureLevels(
  _truth: Omit<LeagueTruth, 'levels'>,
  _time: FieldTimeColumns,
  _random: Random,
  _progress: Progress,
): SkillLevels {
  return {
    person: new Int32Array(0),
    position: new Uint8Array(0),
    trueReach: new Float64Array(0),
    trueFinish: new Float64Array(0),
  };
}
