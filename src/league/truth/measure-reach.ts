import { allocateBallPath } from '../physics/ball-path.ts';
import { type Handling, handleGrounder } from '../physics/handle-ball.ts';
import type { Meeting } from '../physics/meet-ball.ts';
import { FIRST_STEP, GLOVE, HANDS, SKILL_STRIDE, TOP_SPEED } from '../physics/men.ts';
import { INFIELD_HORIZON_S, meetFromStart } from '../physics/pursue-ball.ts';
import type { LeagueTruth } from './league-truth.ts';
import { prepareStandard, standardRows } from './standard-balls.ts';

const STANDARD_BALLS = 1500;
/** Gauss-Hermite nodes and weights of a standard normal: what a replay draws is here averaged over. */
const NODES = [-1.7320508, 0, 1.7320508];
const WEIGHTS = [1 / 6, 2 / 3, 1 / 6];
/** Nobody is this much better than the average man: first step, top speed, arm's length. */
const BEYOND_ANYBODY = { firstStepS: -0.2, topSpeed: 4, gloveFt: 2 };
const OUTFIELD_HORIZON_S = 12;

const meeting: Meeting = { step: -1, needFt: 0, cost: 0 };
const handling: Handling = { missed: 0, booted: 0, bobbled: 0, clean: 0 };
const path = allocateBallPath();
const starts = new Float64Array(18);

/**
 * For each (person, position) the extra gathers per 100 average chances: he takes an average man's place among average
 * team-mates, over the standard balls from the usual starts; an average chance is one gather of the average man.
 */
export function measureReach(
  truth: Omit<LeagueTruth, 'levels'>,
  person: Int32Array,
  position: Uint8Array,
  advance: (done: number) => void,
): Float64Array {
  const men = truth.averageSkills.slice(SKILL_STRIDE);
  const rows = standardRows(truth.balls, STANDARD_BALLS);
  const steps = new Int32Array(10);
  const missed = new Float64Array(10);
  const usual = new Float64Array(10);
  const inPlay = new Uint8Array(10);
  const gathers = new Float64Array(person.length);
  rows.forEach((row, k) => {
    if (k % 50 === 0) advance(k / rows.length);
    prepareStandard(truth.balls, row, truth.batsLeft[truth.balls.batter[row]!] === 1, path, starts);
    for (let p = 1; p <= 9; p += 1) {
      meetFromStart(path, starts, men, p, 0, p <= 6 ? INFIELD_HORIZON_S : OUTFIELD_HORIZON_S, false, meeting);
      steps[p] = meeting.step;
      missed[p] = meeting.step < 0 ? 1 : handled(p, men).missed;
    }
    for (let p = 1; p <= 6; p += 1) {
      inPlay[p] = anybodyCould(p, men, steps) ? 1 : 0;
      if (inPlay[p]) usual[p]! += gatherChance(p, men, steps, missed);
    }
    for (let i = 0; i < person.length; i += 1) {
      const p = position[i]!;
      if (!inPlay[p]) continue;
      const at = (p - 1) * SKILL_STRIDE;
      men.set(truth.skills.subarray(person[i]! * SKILL_STRIDE, (person[i]! + 1) * SKILL_STRIDE), at);
      gathers[i]! += gatherChance(p, men, steps, missed);
      men.set(truth.averageSkills.subarray(at + SKILL_STRIDE, at + 2 * SKILL_STRIDE), at);
    }
  });
  return gathers.map((own, i) => (100 * (own - usual[position[i]!]!)) / usual[position[i]!]!);
}

function handled(p: number, men: Float64Array): Handling {
  handleGrounder(meeting.needFt, path.speed[meeting.step]!, men[(p - 1) * SKILL_STRIDE + HANDS]!, handling);
  return handling;
}

/** False when even a man beyond anybody would come to this ball later than an outfielder: it counts for nobody. */
function anybodyCould(p: number, men: Float64Array, steps: Int32Array): boolean {
  const at = (p - 1) * SKILL_STRIDE;
  const before = men.slice(at, at + SKILL_STRIDE);
  men[at + FIRST_STEP]! += BEYOND_ANYBODY.firstStepS;
  men[at + TOP_SPEED]! += BEYOND_ANYBODY.topSpeed;
  men[at + GLOVE]! += BEYOND_ANYBODY.gloveFt;
  meetFromStart(path, starts, men, p, -2, INFIELD_HORIZON_S, false, meeting);
  men.set(before, at);
  if (meeting.step < 0) return false;
  for (let q = 7; q <= 9; q += 1) if (steps[q]! >= 0 && steps[q]! < meeting.step) return false;
  return true;
}

/** Chance that the man at `p` gathers this ball: he gets to it, everybody before him missed it, and he holds it. */
function gatherChance(p: number, men: Float64Array, steps: Int32Array, missed: Float64Array): number {
  let chance = 0;
  for (let k = 0; k < NODES.length; k += 1) {
    meetFromStart(path, starts, men, p, NODES[k]!, INFIELD_HORIZON_S, false, meeting);
    if (meeting.step < 0) continue;
    const { clean, bobbled } = handled(p, men);
    let own = clean + bobbled;
    for (let q = 1; q <= 9; q += 1) if (q !== p && steps[q]! >= 0 && steps[q]! < meeting.step) own *= missed[q]!;
    chance += WEIGHTS[k]! * own;
  }
  return chance;
}
