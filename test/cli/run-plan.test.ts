import { expect, test } from 'vitest';
import { runCommandLine } from '../../src/cli/run-command-line.ts';
import { recordingConsole } from '../helpers/recording-console.ts';

const PLAN = ['plan', '--book', 'nowhere', '--defence', 'D'];

test.each([
  ['nobody to plan against', [], /--batter, --lineup and --all and got 0/],
  ['two of them', ['--batter', 'a', '--all'], /got 2/],
  ['cards for many that are not a PDF', ['--all', '--format', 'card', '--out', 'cards.svg'], /--out cards\.pdf/],
  ['a swap for many', ['--all', '--swap', '6=x'], /--swap does not go with --all/],
  ['a side for many', ['--lineup', 'a,b', '--side', 'L'], /--side does not go with --lineup/],
  ['a queue for one', ['--batter', 'a', '--queue', 'postgresql:///x'], /--queue does not go with --batter/],
  ['situations for one', ['--batter', 'a', '--situations', '0:---'], /--situations does not go with --batter/],
  ['situations twice', ['--all', '--situations', '0:---', '--outs', '1'], /--situations does not go with --outs/],
  ['situations that are none', ['--all', '--situations', '0:4'], /such as 0:---,1:1-3/],
])('%s ends with 2 and says what to do', async (_, words, message) => {
  const console = recordingConsole();
  const code = await runCommandLine([...PLAN, ...words], console, false);
  expect([code, console.written.out]).toEqual([2, '']);
  expect(console.written.err).toMatch(message);
  expect(console.written.err).toMatch(/^leatherbook: .*\n {2}to do: {2}.+\n$/s);
});

test('a book that is not there ends with 4, for one and for many', async () => {
  for (const words of [['--batter', 'a'], ['--all']]) {
    const console = recordingConsole();
    expect(await runCommandLine([...PLAN, ...words], console, false)).toBe(4);
  }
});
