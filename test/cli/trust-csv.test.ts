import { expect, test } from 'vitest';
import { TRUST_PARTS, type TrustPart, trustCsv } from '../../src/cli/trust-csv.ts';
import { judge } from '../../src/commands/trust/verdict.ts';
import { inventedEvidence } from '../helpers/trust-report.ts';

const evidence = inventedEvidence();
const report = { ...evidence, verdict: judge(evidence), seconds: 41.7 };
/** Rows of a part, by the names in its first row; no cell of an invented report has a comma but those in quotes. */
function rowsOf(part: TrustPart): Record<string, string>[] {
  const [head, ...lines] = trustCsv(report, part).trimEnd().split('\r\n');
  const cells = (line: string) => line.match(/("[^"]*")|[^,]+|(?<=,)(?=,|$)/g)!;
  return lines.map((line) => Object.fromEntries(head!.split(',').map((name, k) => [name, cells(line)[k] ?? ''])));
}

test('every part has its rows, with every number in full', () => {
  const { quality, residuals, models, balance } = report;
  expect(rowsOf('scores').length).toBe(4 * quality.length);
  const [own, , table] = rowsOf('scores');
  expect(Number(own!.log_loss)).toBe(quality[0]!.logLoss.model);
  expect(Number(own!.reliability)).toBe(quality[0]!.parts.reliability);
  expect(own!.lead).toBe('');
  expect(table!.answerer).toBe('table');
  expect(Number(table!.lead_se)).toBe(quality[0]!.better.bins.se);
  expect(rowsOf('tenths').length).toBe(quality.reduce((sum, { deciles }) => sum + deciles.length, 0));
  expect(rowsOf('places').length).toBe(quality.reduce((sum, { places }) => sum + places.length, 0));
  expect(rowsOf('gap_arrival').length).toBe(residuals.reduce((sum, { cells }) => sum + cells.length, 0));
  expect(rowsOf('shifts').length).toBe(balance.length);
  expect(rowsOf('fits').map(({ model }) => model)).toEqual(models.map(({ name }) => name));
  expect(rowsOf('fits')[0]!.terms).toBe('"te(gap, arrival) + random(surface)"');
});

test('no part has a cell that is not a number where there is none', () => {
  for (const part of TRUST_PARTS) expect(trustCsv(report, part)).not.toMatch(/NaN|null|undefined/);
});
