import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import { ExpectedFailure } from '../../expected-failure.ts';

const CHUNK_CHARS = 65_536;
const QUICK_GZIP = { level: 3 };

/** Gathers lines into pieces that are worth a write. */
function* pieces(lines: Iterable<string>): Generator<string> {
  let piece = '';
  for (const line of lines) {
    piece += `${line}\n`;
    if (piece.length < CHUNK_CHARS) continue;
    yield piece;
    piece = '';
  }
  if (piece !== '') yield piece;
}

/**
 * Writes lines to a file as they come, gzipped when its name ends in `.gz`. The file has its name only once it is whole.
 * @throws ExpectedFailure with the path when the disk is full (data) or the place cannot be written (usage).
 */
export async function writeLines(path: string, lines: Iterable<string>): Promise<void> {
  const part = `${path}.part`;
  try {
    const source = Readable.from(pieces(lines));
    const target = createWriteStream(part);
    if (path.endsWith('.gz')) await pipeline(source, createGzip(QUICK_GZIP), target);
    else await pipeline(source, target);
    await rename(part, path);
  } catch (error) {
    await rm(part, { force: true }).catch(() => undefined);
    throw writeFailure(error, path);
  }
}

const REFUSED: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk is read-only',
  ENOTDIR: 'part of the path is a file, not a folder',
  EEXIST: 'there is a file of that name',
  EISDIR: 'there is a folder of that name',
  ENOENT: 'the folder is not there and cannot be made',
};

/** A refusal to write as an expected failure; anything else comes back as it is. */
export function writeFailure(error: unknown, path: string): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOSPC' || code === 'EDQUOT') {
    const remedy = 'Free some space, or choose another folder with --out, and run the command again.';
    return new ExpectedFailure(
      'data',
      `${path} cannot be written: the disk is full`,
      remedy,
      { file: path },
      { cause: error },
    );
  }
  const reason = REFUSED[code];
  if (reason === undefined) return error;
  const remedy = 'Choose a folder that can be written with --out.';
  return new ExpectedFailure('usage', `${path} cannot be written: ${reason}`, remedy, { file: path }, { cause: error });
}
