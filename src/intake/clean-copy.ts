import { isUtf8 } from 'node:buffer';
import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { refuseEncoding, refuseLongLine, syntaxOf, type TextSource } from './inspect-source.ts';
import { RecordScanner } from './record-scanner.ts';
import { sourceBytes } from './source-bytes.ts';
import { JSON_DELIMITER } from './source-sql.ts';
import type { BrokenLine } from './stage.ts';

const LF = Buffer.from('\n');

/**
 * Writes a copy of a source that the engine's strict reader takes: UTF-8, LF, no header, every record well formed and led
 * by its line number. Lines that cannot be cut into cells are left out and given back. Memory stays flat.
 * @param target path of the copy; `rows` is how many records it has
 * @throws ExpectedFailure of kind `data`: bytes that are not UTF-8, a line over the limit
 */
export async function writeCleanCopy(
  source: TextSource,
  target: string,
): Promise<{ broken: BrokenLine[]; rows: number }> {
  const broken: BrokenLine[] = [];
  const wanted = source.columns.length;
  const out = createWriteStream(target);
  const failed = once(out, 'error').then(([error]) => Promise.reject(error as Error));
  failed.catch(() => undefined);
  let parts: Buffer[] = [];
  let records = 0;
  let rows = 0;
  const delimiter = source.delimiter === '' ? JSON_DELIMITER : source.delimiter;
  const scanner = new RecordScanner(syntaxOf(source), (bytes, start, end, line, fields, fault) => {
    if (fault === 'too_long') refuseLongLine(source.shown, line, source.limitBytes);
    const record = bytes.subarray(start, end);
    if (source.encoding === 'utf-8' && !isUtf8(record)) refuseEncoding(source.shown, line);
    records++;
    if (records === 1 && source.format === 'csv') return;
    const last = record.at(-1);
    // One empty cell too many at the end is a habit of some programs and harms nobody.
    const trailing = fields === wanted + 1 && last === delimiter.charCodeAt(0);
    if (fault === undefined && (source.format === 'jsonl' || fields === wanted || trailing)) {
      rows++;
      parts.push(Buffer.from(`${line}${delimiter}`), Buffer.from(trailing ? record.subarray(0, -1) : record), LF);
      return;
    }
    const reason =
      fault === 'unclosed_quote'
        ? 'a quote is opened and not closed'
        : fault === 'stray_quote'
          ? 'a quoted cell goes on after its closing quote (a quote inside a cell must be doubled)'
          : `the line has ${fields} cells and the header ${wanted}`;
    broken.push({ line, reason, text: record.toString('utf8') });
  });
  const flush = async () => {
    if (parts.length === 0) return;
    const block = Buffer.concat(parts);
    parts = [];
    if (!out.write(block)) await Promise.race([once(out, 'drain'), failed]);
  };
  try {
    for await (const chunk of sourceBytes(source.file, source.shown, source.compression, source.encoding)) {
      scanner.push(chunk);
      await flush();
    }
    scanner.finish();
    await flush();
    out.end();
    await finished(out);
  } catch (thrown) {
    out.destroy();
    throw thrown;
  }
  return { broken, rows };
}
