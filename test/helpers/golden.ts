import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

const FOLDER = fileURLToPath(new URL('../golden/', import.meta.url));

/**
 * Compares `actual` with test/golden/NAME.txt. When they differ, the changed output is laid beside the expected one as
 * NAME.changed.txt for a look with any comparing tool; UPDATE_GOLDEN=1 accepts it instead.
 */
export function expectGolden(name: string, actual: string): void {
  const expectedPath = `${FOLDER}${name}.txt`;
  const changedPath = `${FOLDER}${name}.changed.txt`;
  rmSync(changedPath, { force: true });
  if (process.env.UPDATE_GOLDEN === '1') {
    writeFileSync(expectedPath, actual);
    return;
  }
  const expected = existsSync(expectedPath) ? readFileSync(expectedPath, 'utf8') : '';
  if (expected !== actual) writeFileSync(changedPath, actual);
  expect(actual, `differs from ${expectedPath}; see ${changedPath}, accept with UPDATE_GOLDEN=1`).toBe(expected);
}
