import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { madeOnce, makeOnce } from './once-a-run.ts';
import { temporaryFolder } from './temporary-book.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());

test('the first who asks makes it, and all have the same, whenever they ask', async () => {
  const at = join(folder.path, 'made');
  let times = 0;
  const make = async () => {
    times += 1;
    return { times, none: Number.NaN };
  };
  const early = madeOnce(at);
  const wanted = { times: 1, none: Number.NaN };
  expect(await Promise.all([makeOnce(at, make), makeOnce(at, make), early])).toEqual([wanted, wanted, wanted]);
  expect(await makeOnce(at, make)).toEqual(wanted);
});

test('a failure is told to whoever waits', async () => {
  const at = join(folder.path, 'failed');
  const make = () => Promise.reject(new Error('no room'));
  await expect(makeOnce(at, make)).rejects.toThrow(/^no room$/);
  await expect(makeOnce(at, make)).rejects.toThrow(/could not be made: .*no room/);
  await expect(madeOnce(at)).rejects.toThrow(/no room/);
});
