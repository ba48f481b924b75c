import { expect, test } from 'vitest';
import { trustText } from '../../src/cli/trust-text.ts';
import { judge } from '../../src/commands/trust/verdict.ts';
import { expectGolden } from '../helpers/golden.ts';
import { inventedEvidence } from '../helpers/trust-report.ts';

test('trust prints fits, unseen games, calibration, gaps and ends with the verdict', () => {
  const evidence = inventedEvidence();
  expectGolden('trust', trustText({ ...evidence, verdict: judge(evidence), seconds: 41.7 }));
});

test('a verdict of no says so, and why', () => {
  const evidence = inventedEvidence({ grounders: 500, travel: null }, 0.8);
  const text = trustText({ ...evidence, verdict: judge(evidence), seconds: 3 });
  expect(text).toMatch(/These numbers should not be used as they are\.\n/);
  expect(text).toMatch(/\n- No: 500 grounders are too few/);
  expect(text).not.toMatch(/Good for/);
  expect(text).toMatch(/\*\n/);
});
