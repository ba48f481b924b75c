import { CommanderError } from 'commander';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Console } from './console.ts';
import { BUG, DONE, FAILURE_CODES } from './exit-codes.ts';
import { bugText, failureText } from './failure-text.ts';
import { createProgram } from './program.ts';
import { systemFailure } from './system-failure.ts';

/**
 * Parses `args` (without node and script), runs the command and says what went wrong, if anything did.
 * Returns the exit code (commands.md): 0 done, 1 a bug, 2 command line, 3 data, 4 book.
 */
export async function runCommandLine(args: readonly string[], console: Console, debug: boolean): Promise<number> {
  try {
    await createProgram(console).parseAsync([...args], { from: 'user' });
    return DONE;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return DONE;
    const failure = error instanceof ExpectedFailure ? error : systemFailure(error);
    if (failure === null) {
      console.err(bugText(error, debug));
      return BUG;
    }
    console.err(failureText(failure));
    if (debug) console.err(`${failure.stack ?? ''}\n`);
    return FAILURE_CODES[failure.kind];
  }
}
