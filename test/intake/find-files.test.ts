import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { findFiles } from '../../src/intake/find-files.ts';
import { type Workspace, workspace } from './workspace.ts';

let at: Workspace;
beforeEach(() => {
  at = workspace();
  for (const name of ['b-2.csv', 'b-1.csv', 'b-10.csv', 'c.csv.gz', '.b-3.csv', 'in/b-1.csv', 'out/b-1.csv'])
    at.write(name, 'x');
});
afterEach(() => at.remove());

const find = async (pattern: string) =>
  (await findFiles(pattern, join(at.path, 'mapping.yaml'))).map(({ shown }) => shown);

test('a path is taken as it is, whether or not it is there', async () => {
  expect(await findFiles('none.csv', join(at.path, 'mapping.yaml'))).toEqual([
    { file: join(at.path, 'none.csv'), shown: 'none.csv' },
  ]);
});

test.each([
  ['b-?.csv', ['b-1.csv', 'b-2.csv']],
  ['b-*.csv', ['b-1.csv', 'b-10.csv', 'b-2.csv']],
  ['*.csv*', ['b-1.csv', 'b-10.csv', 'b-2.csv', 'c.csv.gz']],
  ['*/b-1.csv', ['in/b-1.csv', 'out/b-1.csv']],
  ['in/*', ['in/b-1.csv']],
])('%s', async (pattern, found) => {
  expect(await find(pattern)).toEqual(found);
  expect(await find(join(at.path, pattern))).toEqual(found.map((name) => join(at.path, name)));
});

test('a pattern that nothing fits names what is near', async () => {
  await expect(find('d-*.csv')).rejects.toThrow(/No file fits 'd-\*\.csv'.*Did you mean 'b-\d+\.csv'/);
});
