import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/** Who writes in a book at the moment; kept in `holder.json` so that a second command can say whom it waits for. */
export interface Holder {
  readonly command: string;
  readonly pid: number;
  readonly host: string;
  /** ISO time. */
  readonly since: string;
}

const fileOf = (dir: string) => join(dir, 'holder.json');

/** Called only by the process that has the engine's lock on the file, which is the real guard. */
export function writeHolder(dir: string, command: string, since: Date): void {
  const holder: Holder = { command, pid: process.pid, host: hostname(), since: since.toISOString() };
  const draft = `${fileOf(dir)}.${process.pid}`;
  writeFileSync(draft, `${JSON.stringify(holder, null, 2)}\n`);
  renameSync(draft, fileOf(dir));
}

export function removeHolder(dir: string): void {
  rmSync(fileOf(dir), { force: true });
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (thrown) {
    return (thrown as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** The living writer named in `holder.json`, or null: no file, an unreadable one, or a process that has ended. */
export function readHolder(dir: string): Holder | null {
  let holder: Holder;
  try {
    holder = JSON.parse(readFileSync(fileOf(dir), 'utf8')) as Holder;
  } catch {
    return null;
  }
  return holder.host === hostname() && !isAlive(holder.pid) ? null : holder;
}
