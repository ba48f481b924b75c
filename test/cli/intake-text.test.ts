import { test } from 'vitest';
import { intakeText } from '../../src/cli/intake-text.ts';
import { expectGolden } from '../helpers/golden.ts';

test('intake prints read = loaded + set aside for every file, and why rows were set aside', () => {
  const text = intakeText({
    book: 'my-book',
    dryRun: false,
    read: 1500,
    loaded: 1488,
    repeated: 40,
    setAside: 12,
    files: [
      { file: 'balls-1.csv', table: 'plays', read: 1000, loaded: 990, repeated: 40, setAside: 10 },
      { file: 'people.csv', table: 'people', read: 500, loaded: 498, repeated: 0, setAside: 2 },
    ],
    reasons: [
      { table: 'plays', column: 'exit_speed_mph', example: "'fast' is not a number", rows: 10 },
      { table: 'people', column: 'person_id', example: "'P12' stands here twice", rows: 2 },
    ],
  });
  expectGolden('intake', text);
});
