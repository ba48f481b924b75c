import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';

const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const LOADER = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as a process of its own from its sources, in folder `cwd`. */
export function runLeatherbook(args: readonly string[], cwd: string): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', LOADER, MAIN, ...args], {
      cwd,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let err = '';
    child.stdout.on('data', (chunk) => {
      out += chunk;
    });
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

/** The words a shell would start the command with, for tests that need a pipe. */
export const SHELL_COMMAND = [process.execPath, '--import', LOADER, MAIN].map((word) => `'${word}'`).join(' ');
