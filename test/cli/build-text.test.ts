import { test } from 'vitest';
import { buildText } from '../../src/cli/build-text.ts';
import { expectGolden } from '../helpers/golden.ts';

test('build prints what went into the ledger, how much of it was fully recorded, and warnings', () => {
  const text = buildText({
    book: 'my-book',
    plays: { ground: 11000, liner: 6000, fly: 5500, popup: 2000, bunt: 500 },
    grades: { full: 10000, ground: 700, whole: 300 },
    entries: 43210,
    warnings: ['Too few gather times.'],
  });
  expectGolden('build', text);
});
