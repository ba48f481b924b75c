import type { NeededProgram } from './needed-programs.ts';

/** What installing needs of the outside world. */
export interface InstallEffects {
  readonly find: (program: NeededProgram) => string | null;
  /** Whether packages may be installed from here: root, on a system with apt-get. */
  readonly mayInstall: () => boolean;
  /** Runs apt-get with these words; true when it succeeded. */
  readonly aptGet: (words: readonly string[]) => boolean;
  readonly say: (line: string) => void;
}

/**
 * Sees to it that every program is there: true when it is. Nothing is said or run when none is missing. What is missing is
 * installed where that is allowed, with the package lists as they are and, if they are too old, with fresh ones.
 */
export function installPrograms(programs: readonly NeededProgram[], effects: InstallEffects): boolean {
  const missing = () => programs.filter((program) => effects.find(program) === null);
  const before = missing();
  if (before.length === 0) return true;
  const packages = before.map(({ debianPackage }) => debianPackage);
  if (effects.mayInstall()) {
    effects.say(`Installing what the tests need: ${packages.join(', ')}`);
    const install = ['install', '--yes', '--quiet', '--no-install-recommends', ...packages];
    if (!effects.aptGet(install)) {
      effects.aptGet(['update', '--quiet']);
      effects.aptGet(install);
    }
  }
  const after = missing();
  if (after.length === 0) return true;
  const names = after.map(({ name }) => name).join(' and ');
  effects.say(`The tests need ${names}, found neither on the PATH nor where Debian puts it. As root, run:`);
  effects.say(
    `  apt-get update && apt-get install --no-install-recommends ${after.map(({ debianPackage }) => debianPackage).join(' ')}`,
  );
  effects.say(`or say where: ${after.map(({ variable }) => `${variable}=/path/to/it`).join(' ')}`);
  return false;
}
