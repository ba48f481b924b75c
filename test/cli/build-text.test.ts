import { test } from 'vitest';
import { buildText } from '../../src/cli/build-text.ts';
import { expectGolden } from '../helpers/golden.ts';

test('build prints what went into the ledger, how much of it was fully recorded, and warnings', () => {
  const text = buildText({
    book: 'my-book',
    plays: { ground: 11000, liner: 6000, fly: 5500, popup: 2000, bunt: 500 },
    grades: { full: 22000, ground: 1900, whole: 600 },
    gradesByKind: {
      ground: { full: 10000, ground: 700, whole: 300 },
      liner: { full: 5500, ground: 400, whole: 100 },
      fly: { full: 5000, ground: 400, whole: 100 },
      popup: { full: 1500, ground: 400, whole: 100 },
    },
    runTable: 'book: every state was seen in 50 half innings',
    overshifts: [{ season: 2031, n: 12, r: 0.5, lo95: -0.1, hi95: 0.83, note: 'over 12 clubs' }],
    entries: 43210,
    warnings: ['Too few gather times.'],
  });
  expectGolden('build', text);
});
