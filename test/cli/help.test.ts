import { test } from 'vitest';
import { createProgram } from '../../src/cli/program.ts';
import { runCommandLine } from '../../src/cli/run-command-line.ts';
import { expectGolden } from '../helpers/golden.ts';
import { recordingConsole } from '../helpers/recording-console.ts';

test('the help of the program and of every command', async () => {
  const names = createProgram(recordingConsole()).commands.map((command) => command.name());
  const console = recordingConsole();
  for (const words of [[], ...names.map((name) => [name])]) {
    console.out(`$ leatherbook ${[...words, '--help'].join(' ')}\n`);
    await runCommandLine([...words, '--help'], console, false);
    console.out('\n');
  }
  expectGolden('help', console.written.out);
});
