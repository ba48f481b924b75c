import { inject } from 'vitest';
import { madeOnce } from '../test/helpers/once-a-run.ts';

/** The workbench of the demo book, as set-up.ts serves it to all files. */
export interface Demo {
  /** Where it listens, without a slash at the end. */
  readonly address: string;
  /** Folder of the book. Tests must not write to it; copy it instead. */
  readonly book: string;
  /** Folder of the built pages. */
  readonly webFolder: string;
}

/** Who comes before it is served waits here. */
export const demo = await madeOnce<Demo>(inject('demoFolder'));
