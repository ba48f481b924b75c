import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { TextDecoder } from 'node:util';
import { createGunzip } from 'node:zlib';
import { ExpectedFailure } from '../expected-failure.ts';
import type { ReadingOptions } from './mapping-schema.ts';

export type Compression = 'none' | 'gzip';
export type Encoding = NonNullable<ReadingOptions['encoding']>;

/** The error of a file that cannot be opened, in words. */
export function cannotRead(file: string, thrown: unknown): ExpectedFailure {
  const { code, message } = thrown as NodeJS.ErrnoException;
  const reasons: Record<string, [string, string]> = {
    ENOENT: [
      'there is no such file',
      'Correct the name under `files` in the mapping; it is relative to the folder of the mapping file.',
    ],
    EISDIR: ['it is a folder', 'Name the files in it, for instance with a pattern like folder/*.csv.'],
    EACCES: ['this user may not read it', 'Give yourself read permission on the file, or use a copy.'],
    Z_DATA_ERROR: ['its compressed data are damaged', 'Fetch the file again from its supplier.'],
    Z_BUF_ERROR: ['its compressed data end too early', 'Fetch the file again from its supplier.'],
  };
  const [why, remedy] = reasons[code ?? ''] ?? [message, 'Check the file and the disk it lies on.'];
  return new ExpectedFailure('data', `${file} cannot be read: ${why}.`, remedy, { file }, { cause: thrown });
}

/** The first bytes of a file as they are on the disk. */
export async function readMagic(file: string, shown: string): Promise<Buffer> {
  try {
    const handle = await open(file, 'r');
    try {
      const buffer = Buffer.alloc(8);
      const { bytesRead } = await handle.read(buffer, 0, 8, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await handle.close();
    }
  } catch (thrown) {
    throw cannotRead(shown, thrown);
  }
}

async function* decoded(source: AsyncIterable<Buffer>, label: string): AsyncGenerator<Buffer> {
  const decoder = new TextDecoder(label);
  for await (const chunk of source) yield Buffer.from(decoder.decode(chunk, { stream: true }));
  yield Buffer.from(decoder.decode());
}

async function* withoutMark(source: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let head: Buffer | undefined;
  for await (const chunk of source) {
    if (head === undefined || head.length < 3) {
      head = head === undefined ? chunk : Buffer.concat([head, chunk]);
      if (head.length < 3) continue;
      yield head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf ? head.subarray(3) : head;
    } else yield chunk;
  }
  if (head !== undefined && head.length < 3) yield head;
}

/**
 * The text of a file as UTF-8 bytes without a byte-order mark, unpacked and recoded as it comes.
 * @throws ExpectedFailure of kind `data` when it cannot be read or unpacked
 */
export async function* sourceBytes(
  file: string,
  shown: string,
  compression: Compression,
  encoding: Encoding,
): AsyncGenerator<Buffer> {
  const disk = createReadStream(file, { highWaterMark: 1 << 18 });
  const unpacked = compression === 'gzip' ? createGunzip({ chunkSize: 1 << 18 }) : undefined;
  if (unpacked !== undefined) {
    disk.on('error', (error) => unpacked.destroy(error));
    disk.pipe(unpacked);
  }
  const stream: AsyncIterable<Buffer> = unpacked ?? disk;
  try {
    if (encoding === 'utf-8') yield* withoutMark(stream);
    else if (encoding === 'latin-1') yield* decoded(stream, 'windows-1252');
    else yield* decodedUtf16(stream);
  } catch (thrown) {
    if (thrown instanceof ExpectedFailure || (thrown as NodeJS.ErrnoException).code === undefined) throw thrown;
    throw cannotRead(shown, thrown);
  } finally {
    disk.destroy();
    unpacked?.destroy();
  }
}

async function* decodedUtf16(source: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let decoder: TextDecoder | undefined;
  for await (const chunk of source) {
    // Big-endian files say so in their mark; the decoder takes the mark off.
    decoder ??= new TextDecoder(chunk[0] === 0xfe && chunk[1] === 0xff ? 'utf-16be' : 'utf-16le');
    yield Buffer.from(decoder.decode(chunk, { stream: true }));
  }
  if (decoder !== undefined) yield Buffer.from(decoder.decode());
}
