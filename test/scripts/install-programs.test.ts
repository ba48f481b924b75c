import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { installPrograms } from '../../scripts/install-programs.ts';
import { findProgram, NEEDED_PROGRAMS, type NeededProgram } from '../../scripts/needed-programs.ts';

const TOOL: NeededProgram = {
  name: 'the tool',
  variable: 'TOOL_AT',
  files: ['tool', 'tool-stable'],
  folders: [],
  debianPackage: 'tool-package',
};

/** A machine on which `installable` says what apt-get can do; keeps what was run and said. */
function machine({ there = false, root = true, listsOld = false, installable = true } = {}) {
  const ran: string[] = [];
  const said: string[] = [];
  let fresh = !listsOld;
  let found = there;
  const all = installPrograms([TOOL], {
    find: () => (found ? '/bin/tool' : null),
    mayInstall: () => root,
    aptGet: ([verb, ...words]) => {
      ran.push([verb, ...words].join(' '));
      if (verb === 'update') fresh = true;
      else if (fresh && installable) found = true;
      return verb === 'update' || found;
    },
    say: (line) => said.push(line),
  });
  return { all, ran, said };
}

const INSTALL = 'install --yes --quiet --no-install-recommends tool-package';

describe('installing what the tests need', () => {
  it('says and runs nothing when all is there', () => {
    expect(machine({ there: true })).toEqual({ all: true, ran: [], said: [] });
  });

  it('installs what is missing, without fetching lists when they serve', () => {
    const { all, ran } = machine();
    expect(all).toBe(true);
    expect(ran).toEqual([INSTALL]);
  });

  it('fetches the lists when they do not', () => {
    const { all, ran } = machine({ listsOld: true });
    expect(all).toBe(true);
    expect(ran).toEqual([INSTALL, 'update --quiet', INSTALL]);
  });

  it('runs nothing without the right to, and says what to run', () => {
    const { all, ran, said } = machine({ root: false });
    expect(all).toBe(false);
    expect(ran).toEqual([]);
    expect(said.join('\n')).toMatch(/the tool[\s\S]*install --no-install-recommends tool-package[\s\S]*TOOL_AT=/);
  });

  it('says what to run when apt-get could not', () => {
    const { all, said } = machine({ installable: false });
    expect(all).toBe(false);
    expect(said.at(-2)).toContain('apt-get install --no-install-recommends tool-package');
  });
});

describe('finding a program', () => {
  let dir = '';
  afterEach(() => rmSync(dir, { recursive: true, force: true }));
  const withFile = (path: string, mode = 0o755) => {
    dir = mkdtempSync(join(tmpdir(), 'leatherbook-programs-'));
    mkdirSync(join(dir, path, '..'), { recursive: true });
    writeFileSync(join(dir, path), '');
    chmodSync(join(dir, path), mode);
    return join(dir, path);
  };

  it('looks on the PATH, under any of its names', () => {
    const path = withFile('some/tool-stable');
    expect(findProgram(TOOL, { PATH: `/nowhere:${join(dir, 'some')}` })).toBe(path);
    expect(findProgram(TOOL, { PATH: '/nowhere' })).toBeNull();
  });

  it('takes the file or the folder that the variable names first', () => {
    const path = withFile('some/tool');
    expect(findProgram(TOOL, { TOOL_AT: path })).toBe(path);
    expect(findProgram(TOOL, { TOOL_AT: join(dir, 'some') })).toBe(path);
  });

  it('takes the newest of several versions, as numbers', () => {
    const path = withFile('9/bin/tool');
    mkdirSync(join(dir, '10/bin'), { recursive: true });
    const versioned = { ...TOOL, folders: [`${dir}/*/bin`] };
    expect(findProgram(versioned, {})).toBe(path);
    writeFileSync(join(dir, '10/bin/tool'), '', { mode: 0o755 });
    expect(findProgram(versioned, {})).toBe(join(dir, '10/bin/tool'));
  });

  it('does not take a folder or a file that cannot be run', () => {
    withFile('some/tool', 0o644);
    mkdirSync(join(dir, 'other/tool'), { recursive: true });
    expect(findProgram(TOOL, { PATH: `${join(dir, 'some')}:${join(dir, 'other')}` })).toBeNull();
  });

  it('finds on this machine everything that the tests are about to use', () => {
    for (const program of NEEDED_PROGRAMS) expect(findProgram(program), program.name).not.toBeNull();
  });
});
