import { ExpectedFailure } from '../expected-failure.ts';

/** Refusals of the operating system that are nobody's bug: what they mean and what to do. */
const REFUSALS: Readonly<Record<string, readonly [kind: 'usage' | 'book', meaning: string, remedy: string]>> = {
  ENOSPC: [
    'book',
    'the disk is full',
    'Free some space and run the command again; results from before are still there.',
  ],
  EDQUOT: ['book', 'the disk quota is used up', 'Free some space and run the command again.'],
  EACCES: ['usage', 'permission is denied', 'Choose a folder that you may read and write, or change its permissions.'],
  EPERM: ['usage', 'permission is denied', 'Choose a folder that you may read and write, or change its permissions.'],
  EROFS: ['usage', 'the folder is on a read-only disk', 'Choose a folder that can be written.'],
  ENOTDIR: ['usage', 'part of the path is a file, not a folder', 'Check the path.'],
  ENAMETOOLONG: ['usage', 'the name is too long for this disk', 'Choose a shorter name.'],
};

/** A refusal of the operating system as an expected failure; null when it is something else. */
export function systemFailure(error: unknown): ExpectedFailure | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null;
  const refusal = REFUSALS[error.code];
  if (refusal === undefined) return null;
  const [kind, meaning, remedy] = refusal;
  const path = 'path' in error && typeof error.path === 'string' ? error.path : undefined;
  return new ExpectedFailure(kind, meaning, remedy, path === undefined ? {} : { file: path }, { cause: error });
}
