import { expect, test } from 'vitest';
import { runCommandLine } from '../../src/cli/run-command-line.ts';
import { recordingConsole } from '../helpers/recording-console.ts';

async function run(...args: string[]) {
  const console = recordingConsole();
  const code = await runCommandLine(args, console, false);
  return { code, ...console.written };
}

test.each([
  ['an unknown command', ['mow'], /unknown command 'mow'/],
  ['a mistyped command', ['tabel'], /Did you mean table\?/],
  ['an unknown option', ['build', '--book', 'b', '--colour'], /unknown option '--colour'/],
  ['a missing option', ['build'], /required option '--book <dir>'/],
  ['a missing argument', ['explain', '--book', 'b'], /missing required argument 'play-id'/],
  ['an argument too many', ['build', 'fast', '--book', 'b'], /too many arguments/],
  ['a word for a number', ['simulate', '--out', 'x', '--seasons', 'two'], /whole number from 1 to 20/],
  ['a number out of range', ['build', '--book', 'b', '--draws', '3'], /whole number from 24 to 1000/],
  ['a choice that is none', ['build', '--book', 'b', '--window', 'open'], /rolling, strict/],
  ['a mapping without a book', ['intake', '--mapping', 'm.yaml'], /intake needs --book/],
  ['a sketch into a book', ['intake', '--book', 'b', '--sketch', 'x.csv'], /--sketch stands alone/],
])('%s ends with 2, says so and where to look', async (_, args, message) => {
  const { code, out, err } = await run(...args);
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toMatch(message);
  expect(err).toMatch(/^leatherbook: .*\n {2}to do: {2}.+\n$/s);
});

test('no command at all shows the help on standard error and ends with 2', async () => {
  const { code, out, err } = await run();
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain('Usage: leatherbook');
});

test('help and version are data and end with 0', async () => {
  expect(await run('--help')).toMatchObject({ code: 0, err: '', out: expect.stringContaining('Usage: leatherbook') });
  expect(await run('build', '--help')).toMatchObject({ code: 0, err: '', out: expect.stringContaining('--draws') });
  expect(await run('--version')).toMatchObject({ code: 0, err: '', out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) });
});

test.each([
  ['build', ['--book', '/nowhere/at/all']],
  ['table', ['fielders', '--book', '/nowhere/at/all']],
  ['explain', ['p1', '--book', '/nowhere/at/all']],
])('%s of a book that is not there ends with 4', async (command, args) => {
  const { code, err } = await run(command, ...args);
  expect(err).toMatch(/There is no book/);
  expect(code).toBe(4);
});

test('anything unforeseen is a bug: it ends with 1 and an apology, and with its stack when asked', async () => {
  const console = recordingConsole();
  const broken = {
    ...console,
    out: () => {
      throw new TypeError('the printer is on fire');
    },
  };
  expect(await runCommandLine(['--version'], broken, false)).toBe(1);
  expect(console.written.err).toMatch(/^leatherbook: sorry, .*the printer is on fire\n/);
  expect(console.written.err).not.toMatch(/\n {4}at /);
  expect(await runCommandLine(['--version'], broken, true)).toBe(1);
  expect(console.written.err).toMatch(/\n {4}at /);
});

test('a full disk ends with 4, a folder that may not be written with 2', async () => {
  const refusing = (code: string) => ({
    ...recordingConsole(),
    out: () => {
      throw Object.assign(new Error(code), { code, path: '/books' });
    },
  });
  expect(await runCommandLine(['--version'], refusing('ENOSPC'), false)).toBe(4);
  expect(await runCommandLine(['--version'], refusing('EACCES'), false)).toBe(2);
});
