import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { checkLayers } from '../../scripts/layer-check.ts';

let root = '';
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Writes a made-up tree of modules and checks it. */
async function check(files: Record<string, string>) {
  root = mkdtempSync(join(tmpdir(), 'leatherbook-layers-'));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return await checkLayers(root);
}

const FIELD = { 'src/diamond/field.ts': 'export const FOOT = 1;\n' };

test('imports to the left and of the shared files pass', async () => {
  const { moduleCount, faults } = await check({
    ...FIELD,
    'src/progress.ts': 'export const SILENT = 0;\n',
    'src/models/fit.ts': "import { FOOT } from '../diamond/field.ts';\nexport const fit = FOOT;\n",
    'src/diamond/bases.ts': "import { SILENT } from '../progress.ts';\nexport const base = SILENT;\n",
  });
  expect(faults).toEqual([]);
  expect(moduleCount).toBe(4);
});

test('an upward import fails, a type-only one too', async () => {
  const { faults } = await check({
    'src/models/fit.ts': 'export type Fit = number;\n',
    'src/diamond/field.ts': "import type { Fit } from '../models/fit.ts';\nexport const foot: Fit = 1;\n",
  });
  expect(faults).toEqual(['diamond-imports-upward: src/diamond/field.ts -> src/models/fit.ts']);
});

test('a circle fails, inside one layer too', async () => {
  const { faults } = await check({
    'src/diamond/a.ts': "import { b } from './b.ts';\nexport const a = () => b;\n",
    'src/diamond/b.ts': "import { a } from './a.ts';\nexport const b = () => a;\n",
  });
  expect(faults.length).toBeGreaterThan(0);
  expect(faults[0]).toMatch(/^circle: /);
});

test('the pages use browser layers and the types of the others; nothing under src uses the pages', async () => {
  const { moduleCount, faults } = await check({
    ...FIELD,
    'src/book/store.ts':
      "import type { Row } from '../../web/row.ts';\nexport type Cell = Row;\nexport const cell = 0;\n",
    'web/row.ts': 'export type Row = number;\n',
    'web/state/good.ts':
      "import { FOOT } from '../../src/diamond/field.ts';\nimport type { Cell } from '../../src/book/store.ts';\nexport const good: Cell = FOOT;\n",
    'web/state/bad.ts':
      "import { cell } from '../../src/book/store.ts';\nimport { join } from 'node:path';\nexport const bad = [cell, join];\n",
    'web/page.svelte':
      '<script lang="ts">\n  import { cell } from "../src/book/store.ts";\n</script>\n\n<h1>{cell}</h1>\n',
  });
  expect(moduleCount).toBe(6);
  // What a compiled page imports is not installed in a made-up tree.
  const own = faults.filter((fault) => !fault.includes('-> svelte/internal/'));
  expect(own.sort()).toEqual([
    'leaves-src: src/book/store.ts -> web/row.ts',
    'web-needs-a-server: web/page.svelte -> src/book/store.ts',
    'web-needs-a-server: web/state/bad.ts -> src/book/store.ts',
    'web-needs-node: web/state/bad.ts -> path',
  ]);
});

test('a tree without modules fails', async () => {
  const { moduleCount, faults } = await check({ 'src/readme.md': 'nothing here' });
  expect(moduleCount).toBe(0);
  expect(faults[0]).toMatch(/no modules read/);
});

test('a shared file that imports, a folder without a rank and the database outside its connector fail', async () => {
  const { faults } = await check({
    ...FIELD,
    'src/progress.ts': "import { FOOT } from './diamond/field.ts';\nexport const SILENT = FOOT;\n",
    'src/attic/old.ts': 'export const old = 1;\n',
    'src/book/schema.ts': "import duckdb from '@duckdb/node-api';\nexport const db = duckdb;\n",
    'src/book/duckdb-store.ts': "import duckdb from '@duckdb/node-api';\nexport const db = duckdb;\n",
    'node_modules/@duckdb/node-api/package.json': '{"name":"@duckdb/node-api","main":"index.js"}',
    'node_modules/@duckdb/node-api/index.js': 'module.exports = {};\n',
  });
  expect(faults).toEqual([
    'src/attic/old.ts: folder attic has no place in scripts/layer-order.ts',
    expect.stringMatching(/^database-outside-connector: src\/book\/schema.ts -> /),
    'shared-file-imports: src/progress.ts -> src/diamond/field.ts',
  ]);
});

test('the queue outside its connector fails', async () => {
  const { faults } = await check({
    ...FIELD,
    'src/jobs/queue-jobs.ts': "import PgBoss from 'pg-boss';\nexport const boss = PgBoss;\n",
    'src/jobs/postgres-queue.ts': "import PgBoss from 'pg-boss';\nexport const boss = PgBoss;\n",
    'node_modules/pg-boss/package.json': '{"name":"pg-boss","main":"index.js"}',
    'node_modules/pg-boss/index.js': 'module.exports = {};\n',
  });
  expect(faults).toEqual([expect.stringMatching(/^queue-outside-connector: src\/jobs\/queue-jobs.ts -> /)]);
});
