import { mkdirSync, rmSync } from 'node:fs';
import type { TestProject } from 'vitest/node';
import { temporaryFolder } from './temporary-book.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder for what is made once and used by many files; gone after the run. */
    readonly commonFolder: string;
  }
}

export function setup(project: TestProject): () => void {
  const { path } = temporaryFolder();
  const remove = () => rmSync(path, { recursive: true, force: true });
  project.provide('commonFolder', path);
  // While somebody works on the sources, what they made before tells nothing.
  project.onTestsRerun(() => {
    remove();
    mkdirSync(path);
  });
  return remove;
}
