import type { Random } from '../numeric/random.ts';
import type { SkillShift } from './chance-board.ts';
import type { Judge } from './judge-plan.ts';
import type { SwapGain } from './plan-types.ts';
import type { PlanGrounds } from './prepare-plans.ts';
import { personIndex, type Settled } from './settle-question.ts';

/** A defence of certain men at its best starts. */
export interface Defence {
  readonly starts: Float64Array;
  readonly shiftOf: SkillShift | undefined;
}

/** What each man of a swap would change, both defences at their own best starts; the range allows for not knowing the two men better. */
export function swapGains(
  grounds: PlanGrounds,
  settled: Settled,
  found: Defence,
  solveWith: (men: Int32Array) => Defence,
  judge: Judge,
  random: Random,
): SwapGain[] {
  const { table } = grounds.data;
  const [usualMarks] = judge.marks([found.starts], found.shiftOf);
  return [...settled.question.swap!].map(([position, id]) => {
    const men = settled.men.slice();
    men[position - 1] = personIndex(grounds, id, 'man');
    const other = solveWith(men);
    const [marks] = judge.marks([other.starts], other.shiftOf);
    const before = settled.men[position - 1];
    const ofBefore = skillSpread(grounds, judge, found, usualMarks, before, position);
    const ofOther = skillSpread(grounds, judge, other, marks, men[position - 1], position);
    for (const [who, spread] of [
      ['The usual man', ofBefore],
      ['The man who would play instead', ofOther],
    ] as const) {
      if (spread.some(Number.isNaN))
        settled.warnings.push(
          `${who} at position ${position} has no rating there, or not every one: where he has none he counts as an average man, and the range of the swap is too narrow.`,
        );
    }
    const spread = [...ofBefore, ...ofOther];
    const sd = Math.hypot(...spread.map((each) => each || 0));
    return {
      position,
      fielder_id: id,
      instead_of: before < 0 ? null : table.people[before],
      gain_runs_per_100: judge.gain(
        marks.map((mark, k) => mark - usualMarks[k]),
        random,
        sd,
      ),
    };
  });
}

const SKILLS = [
  ['reach', 'ground'],
  ['finish', 'ground'],
  ['reach', 'air'],
] as const;

/** What one standard deviation of each of a man's ratings is worth, runs per 100 balls; NaN for a rating that he has not. */
function skillSpread(
  { data: { skills, table } }: PlanGrounds,
  judge: Judge,
  { starts, shiftOf }: Defence,
  marks: Float64Array,
  who: number,
  position: number,
): number[] {
  if (skills === undefined || shiftOf === undefined || who < 0) return [Number.NaN];
  const asked = SKILLS.filter(([, ballClass]) => ballClass === 'air' || position <= 6);
  return asked.map(([kind, ballClass]) => {
    const sd = skills.sdOf(kind, position, table.people[who], ballClass);
    if (Number.isNaN(sd)) return Number.NaN;
    const better: SkillShift = (k, p, c) =>
      shiftOf(k, p, c) + (k === kind && p === position && c === ballClass ? sd : 0);
    const [moved] = judge.marks([starts], better);
    return judge.runs(marks) - judge.runs(moved);
  });
}
