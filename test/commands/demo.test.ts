import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { demo } from '../../src/commands/demo.ts';
import { prepareDemoFolder } from '../../src/commands/demo-folder.ts';
import { ENTRY_KINDS } from '../../src/ledger/entry-kinds.ts';
import { SILENT } from '../../src/progress.ts';

const folder = mkdtempSync(join(tmpdir(), 'leatherbook-demo-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the demo replaces an earlier demo book and ends with balanced books', { timeout: 120_000 }, async () => {
  const options = { book: join(folder, 'demo'), seasons: 1, teams: 4, seed: 3, ballsPerSeason: 5000 };
  const effects = { progress: SILENT, now: () => new Date('2026-01-02T03:04:05Z') };
  await prepareDemoFolder(options.book, effects);
  const first = await demo(options, effects);
  expect(first.steps.map((step) => step.name)).toEqual(['simulate', 'intake', 'build', 'tables', 'explain']);
  const kinds = first.tables.balance.filter((row) => (ENTRY_KINDS as readonly unknown[]).includes(row.mark_or_kind));
  expect(kinds.length).toBeGreaterThan(3);
  for (const row of kinds) expect(Math.abs(Number(row.total_outs)), String(row.mark_or_kind)).toBeLessThan(1e-6);
  expect(first.tables.teams).toHaveLength(4);
  for (const kind of ['placement', 'reach', 'finish'] as const) {
    const outs = first.tables.fielders[kind].map((row) => Number(row.outs));
    expect(outs).toHaveLength(6);
    expect(outs).toEqual([...outs].sort((a, b) => b - a));
  }
  const { opening, closed } = first.explanation.marks;
  const credited = first.explanation.entries.reduce((sum, entry) => sum + entry.outs, 0);
  expect(credited).toBeCloseTo(closed - opening, 9);
});
