import { FULL, GRADES } from '../chances/grades.ts';
import { BALL_KINDS } from '../diamond/play-codes.ts';
import { type BalanceGroup, LARGEST_SHIFT } from '../ledger/balance.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { isLargeShift } from '../ledger/large-shift.ts';
import type { BookModels } from './score-book.ts';

const FEW_PLAYS = 3000;

/** Things to look at before the numbers of a build are used, in words. */
export function* buildWarnings(ledgers: readonly ClassLedger[], models: BookModels): Generator<string> {
  if (models.grounders?.travel.fitted === null) {
    yield 'Too few gather times to learn how long grounders travel: a plain physical rule serves, and marks are rougher for it.';
  }
  for (const ledger of ledgers) {
    const full = ledger.grade.reduce((sum, grade) => sum + (grade === FULL ? 1 : 0), 0);
    const what = ledger.plays.men === 9 ? 'balls in the air' : 'grounders';
    if (full < FEW_PLAYS) {
      yield `Only ${full} fully recorded ${what} to learn from: below ${FEW_PLAYS} the surfaces are mostly smoothing, and the ledger mostly says that everybody is average.`;
    }
  }
  const shifts = ledgers.flatMap((ledger) => [...largeShifts(ledger)]);
  for (const { season, kind, grade, plays, mark, shift, lack } of shifts) {
    if (grade !== FULL) continue;
    yield `${season}, ${BALL_KINDS[kind]} of grade ${GRADES[grade]}: the ${mark} mark promised ${Math.abs(lack).toFixed(1)} outs too ${lack > 0 ? 'few' : 'many'} over ${plays} plays and had to be shifted by ${shift.toFixed(3)} on the logit scale; more than 0.05 says that a model is off.`;
  }
  const lower = shifts.filter(({ grade }) => grade !== FULL).length;
  if (lower > 0)
    yield `${lower} marks of plays below grade full had to be shifted by more than 0.05, too: table balance.`;
}

function* largeShifts(ledger: ClassLedger): Generator<BalanceGroup & { mark: string; shift: number; lack: number }> {
  for (const mark of ['opening', 'set', 'gathered'] as const) {
    const information = informationByGroup(ledger, ledger[mark]);
    for (const [number, group] of ledger.balance.groups.entries()) {
      const shift = group[mark];
      // At the largest shift every play of the group was an out, or none: nothing was learnt and nobody paid.
      if (Math.abs(shift) < LARGEST_SHIFT && isLargeShift(shift, information[number])) {
        yield { ...group, mark, shift, lack: group.short[mark] };
      }
    }
  }
}

/** Sum of p(1 - p) of a mark by balance group: one over its root is the standard error of the group's shift. */
function informationByGroup(ledger: ClassLedger, mark: Float64Array): Float64Array {
  const information = new Float64Array(ledger.balance.groups.length);
  mark.forEach((p, at) => {
    if (!Number.isNaN(p)) information[ledger.balance.groupOf[at]] += p * (1 - p);
  });
  return information;
}
