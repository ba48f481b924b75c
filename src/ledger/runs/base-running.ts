import type { PlayTable } from '../../chances/play-table.ts';
import { BALL_KINDS, ON_FIRST, ON_SECOND, ON_THIRD, RESULTS } from '../../diamond/play-codes.ts';
import { RUNNERS } from './base-out.ts';
import { NONE, type PlaySequence } from './play-sequence.ts';

/** Balls on the ground, and in the air (liners, flies, popups): runners do unlike things on them. */
export type BallClass = 'ground' | 'air';

/** What men on base do, as shares in 0..1. Pairs are for fewer than two outs and for two. */
export interface BaseRunning {
  /** Of grounders for an out with a man on first and fewer than two outs: those that were two outs. */
  readonly doubled: number;
  /** Of grounders for one out with a man on first and fewer than two outs: those on which a runner and not the batter was out. */
  readonly leadManOut: number;
  /** Of balls for one out with fewer than two outs and a man on third who need not run: those on which somebody scored. */
  readonly thirdOnOut: number;
  /** Of singles with a man on second: those on which he scored. */
  readonly secondOnSingle: readonly [number, number];
  /** Of singles with a man on first alone, followed at once by another ball in play: those on which he reached third. */
  readonly firstToThird: readonly [number, number];
  /** Of doubles with a man on first: those on which he scored. */
  readonly firstOnDouble: readonly [number, number];
}

/** Rough usual shares, from memory, for what a book has too few cases of. */
export const USUAL_BASE_RUNNING: BaseRunning = {
  doubled: 0.4,
  leadManOut: 0.5,
  thirdOnOut: 0.5,
  secondOnSingle: [0.5, 0.8],
  firstToThird: [0.25, 0.35],
  firstOnDouble: [0.35, 0.6],
};

/** Below this many cases a share is not the book's own. */
const FEWEST_CASES = 30;

const BUNT = BALL_KINDS.indexOf('bunt');
const GROUND = BALL_KINDS.indexOf('ground');
const [SINGLE, DOUBLE, CHOICE] = (['single', 'double', 'fielders_choice'] as const).map((name) =>
  RESULTS.indexOf(name),
);

/** Cases of something that may happen, and how often it did. */
class Tally {
  private cases = 0;
  private times = 0;

  add(happened: boolean): void {
    this.cases += 1;
    if (happened) this.times += 1;
  }

  shareOr(usual: number): number {
    return this.cases >= FEWEST_CASES ? this.times / this.cases : usual;
  }
}

/** Counts the shares on one class of balls in a book. Bunts are left out: most are meant to move a man at the price of an out. */
export function measureBaseRunning(plays: PlayTable, sequence: PlaySequence, ball: BallClass): BaseRunning {
  const [doubled, leadManOut, thirdOnOut] = [new Tally(), new Tally(), new Tally()];
  const secondOnSingle = [new Tally(), new Tally()];
  const firstToThird = [new Tally(), new Tally()];
  const firstOnDouble = [new Tally(), new Tally()];
  for (let at = 0; at < sequence.count; at += 1) {
    const row = sequence.row[at];
    const kind = plays.ballKind[row];
    if (kind === BUNT || (kind === GROUND) !== (ball === 'ground')) continue;
    const bases = plays.bases[row];
    const scored = plays.runsScored[row];
    const two = plays.outsBefore[row] === 2 ? 1 : 0;
    const result = plays.result[row];
    const outs = plays.outsMade[row];
    if (outs > 0 && two === 0) {
      if (bases & ON_FIRST) doubled.add(outs > 1);
      if (bases & ON_FIRST && outs === 1) leadManOut.add(result === CHOICE);
      if (bases & ON_THIRD && outs === 1 && (ball === 'air' || bases !== 7)) thirdOnOut.add(scored > 0);
    }
    if (result === SINGLE && bases & ON_SECOND) secondOnSingle[two].add(scored > (bases & ON_THIRD ? 1 : 0));
    if (result === SINGLE && bases === ON_FIRST && sequence.next[at] !== NONE && sequence.runnersAfter[at] === 2)
      firstToThird[two].add((sequence.before[sequence.next[at]] & ON_THIRD) !== 0);
    if (result === DOUBLE && bases & ON_FIRST) firstOnDouble[two].add(scored >= RUNNERS[bases]);
  }
  const usual = USUAL_BASE_RUNNING;
  const pair = (tallies: readonly Tally[], [fewer, withTwo]: readonly [number, number]) =>
    [tallies[0].shareOr(fewer), tallies[1].shareOr(withTwo)] as const;
  return {
    doubled: doubled.shareOr(usual.doubled),
    leadManOut: leadManOut.shareOr(usual.leadManOut),
    thirdOnOut: thirdOnOut.shareOr(usual.thirdOnOut),
    secondOnSingle: pair(secondOnSingle, usual.secondOnSingle),
    firstToThird: pair(firstToThird, usual.firstToThird),
    firstOnDouble: pair(firstOnDouble, usual.firstOnDouble),
  };
}
