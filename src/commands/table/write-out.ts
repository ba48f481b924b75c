import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { ExpectedFailure } from '../../expected-failure.ts';

const REASONS: Record<string, string> = {
  ENOENT: 'its folder does not exist',
  ENOTDIR: 'its folder is a file',
  EACCES: 'its folder may not be written by this user',
  EPERM: 'its folder may not be written by this user',
  EROFS: 'its folder lies on a disk that can only be read',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
};

function cannotWrite(out: string, reason: string, cause?: unknown): ExpectedFailure {
  return new ExpectedFailure(
    'usage',
    `${out} cannot be written: ${reason}.`,
    'Name another file with --out.',
    { file: out },
    { cause },
  );
}

/**
 * Has `fill` write a file beside `out` and moves it there when it is whole, so that nobody ever sees half a file.
 * @throws ExpectedFailure of kind `usage` when the place cannot be written
 */
export async function writeOut(out: string, fill: (draft: string) => Promise<void>): Promise<void> {
  const draft = `${out}.draft-${process.pid}`;
  try {
    accessSync(dirname(out), constants.W_OK);
    if (statSync(out, { throwIfNoEntry: false })?.isDirectory()) throw cannotWrite(out, 'it is a folder');
    await fill(draft);
    renameSync(draft, out);
  } catch (thrown) {
    rmSync(draft, { force: true });
    const reason = REASONS[(thrown as NodeJS.ErrnoException).code ?? ''];
    throw reason === undefined ? thrown : cannotWrite(out, reason, thrown);
  }
}

/** Writes chunks of text and waits for the disk. */
export function writeChunks(path: string, chunks: Iterable<string>): void {
  const file = openSync(path, 'w');
  try {
    for (const chunk of chunks) {
      const bytes = Buffer.from(chunk);
      for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
    }
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
