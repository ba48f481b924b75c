import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chmodSync, chownSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { findProgram, POSTGRESQL } from '../../scripts/needed-programs.ts';

export interface PostgresServer {
  /** Address of an empty database. */
  readonly url: string;
  stop(): Promise<void>;
}

/** The server refuses to run as root; Debian's package brings a user for it. */
function serverUser(): { uid: number; gid: number } | null {
  if (process.getuid?.() !== 0) return null;
  const line = readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .find((entry) => entry.startsWith('postgres:'));
  const [, , uid, gid] = line?.split(':') ?? [];
  if (uid === undefined) throw new Error('There is no user postgres to run the server as; scripts/ensure-packages.ts');
  return { uid: Number(uid), gid: Number(gid) };
}

const FAST = ['fsync=off', 'synchronous_commit=off', 'full_page_writes=off', 'shared_buffers=16MB', 'autovacuum=off'];

/** Starts a PostgreSQL server of our own on a socket in a temporary folder; no port, no traces. */
export async function startPostgres(): Promise<PostgresServer> {
  const initdb = findProgram(POSTGRESQL);
  if (initdb === null) throw new Error('No PostgreSQL server: npx tsx scripts/ensure-packages.ts says how to get it.');
  const folder = mkdtempSync(join(tmpdir(), 'leatherbook-postgres-'));
  const user = serverUser();
  if (user !== null) chownSync(folder, user.uid, user.gid);
  chmodSync(folder, 0o700);
  const data = join(folder, 'data');
  const as = user ?? {};
  execFileSync(initdb, ['-D', data, '-A', 'trust', '-U', 'postgres', '-E', 'UTF8', '--no-sync', '--no-locale'], {
    ...as,
    cwd: folder,
    stdio: 'ignore',
  });
  const settings = [...FAST, 'listen_addresses=', `unix_socket_directories=${folder}`];
  const server = spawn(join(dirname(initdb), 'postgres'), ['-D', data, ...settings.flatMap((one) => ['-c', one])], {
    ...as,
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  await readiness(server);
  return {
    url: `postgresql:///postgres?host=${folder}&user=postgres`,
    stop: async () => {
      const ended = new Promise((resolve) => server.once('close', resolve));
      server.kill('SIGQUIT');
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function readiness(server: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let said = '';
    server.stderr!.on('data', (bytes) => {
      said += bytes;
      if (said.includes('ready to accept connections')) resolve();
    });
    server.once('close', () => reject(new Error(`The PostgreSQL server ended: ${said}`)));
  });
}
