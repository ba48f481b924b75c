import { expect, test } from 'vitest';
import { BALL_KINDS } from '../../../src/diamond/play-codes.ts';
import { type BaseRunning, measureBaseRunning, USUAL_BASE_RUNNING } from '../../../src/ledger/runs/base-running.ts';
import { sequencePlays } from '../../../src/ledger/runs/play-sequence.ts';
import { advancementOn, runValues } from '../../../src/ledger/runs/run-values.ts';
import { chainPlays } from './chain-plays.ts';

const RATES = { strikeout: 0.2, walk: 0.09, home_run: 0.02, out: 0.44, single: 0.18, double: 0.06, triple: 0.01 };
const TRUE_RUNNING: BaseRunning = {
  doubled: 0.3,
  leadManOut: 0.6,
  thirdOnOut: 0.7,
  secondOnSingle: [0.55, 0.9],
  firstToThird: [0.2, 0.5],
  firstOnDouble: [0.4, 0.75],
};

const book = (halves: number) => chainPlays(halves, RATES, advancementOn('ground', TRUE_RUNNING), 11);

test('what runners do is found again, within sampling error', () => {
  const plays = book(20_000);
  const found = measureBaseRunning(plays, sequencePlays(plays), 'ground');
  const close = (share: number, truth: number) => expect(Math.abs(share - truth)).toBeLessThan(0.045);
  close(found.doubled, TRUE_RUNNING.doubled);
  close(found.leadManOut, TRUE_RUNNING.leadManOut);
  close(found.thirdOnOut, TRUE_RUNNING.thirdOnOut);
  for (const two of [0, 1]) {
    close(found.secondOnSingle[two], TRUE_RUNNING.secondOnSingle[two]);
    close(found.firstToThird[two], TRUE_RUNNING.firstToThird[two]);
    close(found.firstOnDouble[two], TRUE_RUNNING.firstOnDouble[two]);
  }
});

test('a share with fewer than 30 cases is the usual one; balls in the air and bunts are kept apart', () => {
  const plays = book(2_000);
  const none = measureBaseRunning(plays, sequencePlays(plays), 'air');
  expect(none).toEqual(USUAL_BASE_RUNNING);
  const bunts = { ...plays, ballKind: plays.ballKind.map(() => BALL_KINDS.indexOf('bunt')) };
  expect(measureBaseRunning(bunts, sequencePlays(bunts), 'ground')).toEqual(USUAL_BASE_RUNNING);
});

test('the second out is worth runs exactly where it can be made', () => {
  const { turn } = runValues(book(20_000));
  turn.forEach((runs, state) => {
    if (state < 16 && state & 1) expect(runs).toBeGreaterThan(0.1);
    else expect(runs).toBeNaN();
  });
});
