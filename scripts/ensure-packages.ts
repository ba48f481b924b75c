/** Run before the tests: they need programs that npm does not bring (needed-programs.ts). */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { installPrograms } from './install-programs.ts';
import { findProgram, NEEDED_PROGRAMS } from './needed-programs.ts';

const APT_GET = '/usr/bin/apt-get';

const allThere = installPrograms(NEEDED_PROGRAMS, {
  find: (program) => findProgram(program),
  mayInstall: () => process.getuid?.() === 0 && existsSync(APT_GET),
  aptGet: (words) => {
    // Runlevel 1: a package that brings a service must not start it.
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive', RUNLEVEL: '1' };
    const { status, stderr } = spawnSync(APT_GET, words, {
      env,
      encoding: 'utf8',
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    if (status !== 0) console.error(stderr);
    return status === 0;
  },
  say: (line) => console.error(line),
});
process.exitCode = allThere ? 0 : 1;
