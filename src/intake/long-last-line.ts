import { open } from 'node:fs/promises';
import type { TextSource } from './inspect-source.ts';
import { sourceBytes } from './source-bytes.ts';

const LF = 10;
const CR = 13;
/** Deflate packs no more than this many bytes into one. */
const PACKING_LIMIT = 1032;

const lastLineEnd = (bytes: Buffer) => Math.max(bytes.lastIndexOf(LF), bytes.lastIndexOf(CR));

/**
 * Does the file end in a line over the limit, without a line end? The engine's reader (release 1.5.6) leaves such a line out
 * without a word when it is longer than its buffer, and a row must not vanish; every other long line it refuses.
 */
export async function endsInLongLine(source: TextSource): Promise<boolean> {
  const { file, shown, compression, limitBytes } = source;
  const handle = await open(file, 'r');
  try {
    const { size } = await handle.stat();
    if (compression === 'none') {
      if (size <= limitBytes) return false;
      const tail = Buffer.alloc(limitBytes + 1);
      await handle.read(tail, 0, tail.length, size - tail.length);
      return lastLineEnd(tail) < 0;
    }
    if (size * PACKING_LIMIT <= limitBytes) return false;
  } finally {
    await handle.close();
  }
  let since = 0;
  for await (const chunk of sourceBytes(file, shown, compression, 'utf-8')) {
    const end = lastLineEnd(chunk);
    since = end < 0 ? since + chunk.length : chunk.length - end - 1;
  }
  return since > limitBytes;
}
