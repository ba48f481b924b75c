import { accessSync, constants, readdirSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** A program beyond Node that the tests run: where it is looked for, and the Debian package that brings it. */
export interface NeededProgram {
  /** What it is called in messages. */
  readonly name: string;
  /** Environment variable that names the program's file, or the folder of its files, when it lies elsewhere. */
  readonly variable: string;
  /** Files, each enough by itself. */
  readonly files: readonly string[];
  /** Folders beside those of PATH; `*` stands for one part of a path. */
  readonly folders: readonly string[];
  readonly debianPackage: string;
}

export const CHROMIUM: NeededProgram = {
  name: 'Chromium',
  variable: 'LEATHERBOOK_CHROMIUM',
  files: ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'],
  folders: ['/usr/bin'],
  debianPackage: 'chromium',
};

/** The server itself, not the client: Debian keeps it off the PATH, a folder for each version. */
export const POSTGRESQL: NeededProgram = {
  name: 'the PostgreSQL server',
  variable: 'LEATHERBOOK_POSTGRESQL',
  files: ['initdb'],
  folders: ['/usr/lib/postgresql/*/bin'],
  debianPackage: 'postgresql',
};

/** The one list. */
export const NEEDED_PROGRAMS: readonly NeededProgram[] = [CHROMIUM, POSTGRESQL];

/** Path of the program's file, or null when it is nowhere. Of several versions the newest is taken. */
export function findProgram(program: NeededProgram, environment: NodeJS.ProcessEnv = process.env): string | null {
  const named = environment[program.variable];
  const onPath = (environment.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const folders = [...onPath, ...program.folders.flatMap(expandStar)];
  const candidates = [
    ...(named ? [named, ...program.files.map((file) => join(named, file))] : []),
    ...folders.flatMap((folder) => program.files.map((file) => join(folder, file))),
  ];
  return candidates.find(isProgram) ?? null;
}

function expandStar(pattern: string): string[] {
  const [before, after] = pattern.split('*');
  if (after === undefined) return [pattern];
  try {
    const byVersion = (a: string, b: string) => Number(b) - Number(a);
    return readdirSync(before!)
      .sort(byVersion)
      .map((name) => join(before!, name, after));
  } catch {
    return [];
  }
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
