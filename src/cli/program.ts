import { Command, type CommanderError } from 'commander';
import { programVersion } from '../book/program-version.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { registerBuild } from './build-command.ts';
import { registerCompare } from './compare-command.ts';
import type { Console } from './console.ts';
import { registerDemo } from './demo-command.ts';
import { registerExplain } from './explain-command.ts';
import { registerIntake } from './intake-command.ts';
import { registerPlan } from './plan-command.ts';
import { registerReport } from './report-command.ts';
import { registerServe } from './serve-command.ts';
import { registerSimulate } from './simulate-command.ts';
import { registerTable } from './table-command.ts';
import { registerTrust } from './trust-command.ts';
import { registerUpdate } from './update-command.ts';
import { registerWork } from './work-command.ts';

const HELP_WIDTH = 100;

/** The whole command line, ready to parse. Wrong words and options throw an ExpectedFailure of kind `usage`. */
export function createProgram(console: Console): Command {
  const program = new Command('leatherbook')
    .description('Reads batted balls into a book and says how much of each result was placement, reach and finish.')
    .version(programVersion(), '--version', 'print the version')
    .helpOption('--help', 'say what this command does and what its options mean')
    .helpCommand(false)
    .configureOutput({
      writeOut: (text) => console.out(text),
      writeErr: (text) => console.err(text),
      outputError: () => {},
      getOutHelpWidth: () => HELP_WIDTH,
      getErrHelpWidth: () => HELP_WIDTH,
    })
    .addHelpText('after', '\nBegin with `leatherbook demo`; `leatherbook COMMAND --help` says more about each.');
  registerDemo(program, console);
  registerSimulate(program, console);
  registerIntake(program, console);
  registerBuild(program, console);
  registerUpdate(program, console);
  registerTable(program, console);
  registerCompare(program, console);
  registerExplain(program, console);
  registerTrust(program, console);
  registerPlan(program, console);
  registerWork(program, console);
  registerReport(program, console);
  registerServe(program, console);
  for (const command of [program, ...program.commands]) command.exitOverride((error) => refuse(command, error));
  return program;
}

/** Turns commander's complaint into ours; help and version are no complaint and pass through. */
function refuse(command: Command, error: CommanderError): never {
  if (error.exitCode === 0) throw error;
  const name = command.parent === null ? command.name() : `${command.parent.name()} ${command.name()}`;
  const bare = error.code === 'commander.help';
  const message = bare ? 'no command was given' : error.message.replace(/^error: /, '').replaceAll('\n', ' ');
  throw new ExpectedFailure('usage', message, `\`${name} --help\` lists what it understands.`, {}, { cause: error });
}
