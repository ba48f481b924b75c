import { test } from 'vitest';
import { simulateText } from '../../src/cli/simulate-text.ts';
import { expectGolden } from '../helpers/golden.ts';

test('simulate names its files and the command that reads them in', () => {
  const files = ['mapping.yaml', 'plays-2031.csv', 'truth/skills.csv'];
  expectGolden('simulate', simulateText({ out: 'league', files, plays: 25000 }));
});
