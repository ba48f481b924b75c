import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const CHILD = fileURLToPath(new URL('./book-child.ts', import.meta.url));

export interface BookChild {
  readonly process: ChildProcess;
  readonly lines: string[];
  /** Waits until a line matches; fails when the process ends before. */
  until(pattern: RegExp): Promise<string>;
  /** Ends when the process has ended. */
  readonly ended: Promise<void>;
  readonly stderr: () => string;
}

/** Starts book-child.ts; `before` is a command that prepares its private mounts, which go with it. */
export function startBookChild(dir: string, access: string, action: string, before?: string): BookChild {
  const own = ['--import', 'tsx', CHILD, dir, access, action];
  const child = before
    ? spawn('unshare', ['-m', 'sh', '-c', `${before} && exec "$0" "$@"`, process.execPath, ...own])
    : spawn(process.execPath, own);
  const lines: string[] = [];
  let stderr = '';
  let hear: (() => void) | undefined;
  let hasEnded = false;
  child.stderr!.on('data', (bytes) => {
    stderr += bytes;
  });
  createInterface({ input: child.stdout! }).on('line', (line) => {
    lines.push(line);
    hear?.();
  });
  const ended = new Promise<void>((resolve) => {
    child.on('close', () => {
      hasEnded = true;
      hear?.();
      resolve();
    });
  });
  const until = async (pattern: RegExp) => {
    for (;;) {
      const found = lines.find((line) => pattern.test(line));
      if (found !== undefined) return found;
      if (hasEnded) throw new Error(`The child ended without saying ${pattern}: ${lines.join(' | ')} ${stderr}`);
      await new Promise<void>((resolve) => {
        hear = resolve;
      });
    }
  };
  return { process: child, lines, until, ended, stderr: () => stderr };
}

/** Whether this machine lets us mount in a name space of a child (root on Linux); nothing is left behind there. */
export const HAS_PRIVATE_MOUNTS =
  spawnSync('unshare', ['-m', 'sh', '-c', 'mount -t tmpfs -o size=1m none /mnt']).status === 0;
