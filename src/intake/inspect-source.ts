import { isUtf8 } from 'node:buffer';
import { ExpectedFailure } from '../expected-failure.ts';
import type { ReadingOptions } from './mapping-schema.ts';
import { listWords } from './nearest-word.ts';
import { type RecordFault, RecordScanner, type RecordSyntax, splitRecord } from './record-scanner.ts';
import { type Compression, type Encoding, readMagic, sourceBytes } from './source-bytes.ts';

/** Longest line that is read, in bytes; also the engine's own default. */
export const LINE_LIMIT_BYTES = 2_000_000;

/** How a text file is to be read, and what was seen at its head. */
export interface TextSource {
  readonly format: 'csv' | 'jsonl';
  /** Path on the disk. */
  readonly file: string;
  /** The name that messages and tables give it. */
  readonly shown: string;
  readonly compression: Compression;
  readonly encoding: Encoding;
  /** One character, '' for JSON lines. */
  readonly delimiter: string;
  /** One character or ''. */
  readonly quote: string;
  readonly decimal: ',' | '.';
  readonly empty: readonly string[];
  /** Names of the columns: of the header, or the keys seen in the first rows. */
  readonly columns: readonly string[];
  /** Cells of the first rows, for guesses. */
  readonly sample: readonly (readonly string[])[];
  readonly limitBytes: number;
}

export interface ParquetSource {
  readonly format: 'parquet';
  readonly file: string;
  readonly shown: string;
  readonly decimal: '.';
  readonly empty: readonly string[];
}

export type Source = TextSource | ParquetSource;

const DELIMITERS = [',', ';', '\t', '|'] as const;
const NAMES: Record<string, string> = {
  ',': 'a comma (,)',
  ';': 'a semicolon (;)',
  '\t': 'a tab (\\t)',
  '|': 'a bar (|)',
};
const HEAD_BYTES = 1 << 18;
const SAMPLE_ROWS = 1000;

export function nameDelimiter(delimiter: string): string {
  return NAMES[delimiter] ?? `'${delimiter}'`;
}

export function syntaxOf(source: Pick<TextSource, 'delimiter' | 'quote' | 'limitBytes'>): RecordSyntax {
  const byte = (text: string) => (text === '' ? -1 : text.charCodeAt(0));
  return { delimiter: byte(source.delimiter), quote: byte(source.quote), limitBytes: source.limitBytes };
}

function refuse(shown: string, message: string, remedy: string, line?: number): never {
  const place = line === undefined ? shown : `${shown}, line ${line}`;
  throw new ExpectedFailure(
    'data',
    `${place}: ${message}`,
    remedy,
    line === undefined ? { file: shown } : { file: shown, line },
  );
}

export function refuseLongLine(shown: string, line: number, limitBytes: number): never {
  refuse(
    shown,
    `this line is longer than ${limitBytes.toLocaleString('en')} bytes, which is the limit.`,
    'Look whether the file has line ends at all and whether it is what the mapping says (format, delimiter, quote).',
    line,
  );
}

export function refuseEncoding(shown: string, line: number): never {
  refuse(
    shown,
    'the bytes of this line are not UTF-8 text.',
    'Say how the file is written with `encoding: latin-1` or `encoding: utf-16` beside its name in the mapping.',
    line,
  );
}

async function readHead(bytes: AsyncIterable<Buffer>, limitBytes: number): Promise<{ head: Buffer; whole: boolean }> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of bytes) {
    chunks.push(chunk);
    size += chunk.length;
    // Enough for a sample, with at least one line end in it.
    if (size >= HEAD_BYTES && (chunks.some((part) => part.includes(10) || part.includes(13)) || size > limitBytes)) {
      return { head: Buffer.concat(chunks), whole: false };
    }
  }
  return { head: Buffer.concat(chunks), whole: true };
}

interface HeadRecord {
  readonly text: string;
  readonly line: number;
  readonly fields: number;
  readonly fault: RecordFault | undefined;
}

function headRecords(head: Buffer, whole: boolean, syntax: RecordSyntax): HeadRecord[] {
  const records: HeadRecord[] = [];
  const scanner = new RecordScanner(syntax, (bytes, start, end, line, fields, fault) => {
    if (records.length <= SAMPLE_ROWS) records.push({ text: bytes.toString('utf8', start, end), line, fields, fault });
  });
  scanner.push(head);
  if (whole) scanner.finish();
  return records;
}

/** The delimiter with which most rows have as many cells as the header, and the header more than one. */
function guessDelimiter(head: Buffer, whole: boolean, quote: string, limitBytes: number): string | undefined {
  let best: string | undefined;
  let bestScore = 0;
  for (const delimiter of DELIMITERS) {
    const records = headRecords(head, whole, syntaxOf({ delimiter, quote, limitBytes })).slice(0, 200);
    const fields = records[0]?.fields ?? 0;
    if (fields < 2) continue;
    const alike = records.filter((record) => record.fault === undefined && record.fields === fields).length;
    const score = alike / records.length + fields / 1000;
    if (score > bestScore) {
      best = delimiter;
      bestScore = score;
    }
  }
  return best;
}

function guessDecimal(sample: readonly (readonly string[])[], delimiter: string): ',' | '.' {
  if (delimiter === ',') return '.';
  let commas = 0;
  let points = 0;
  for (const row of sample) {
    for (const cell of row) {
      if (/^\s*-?\d*,\d+\s*$/.test(cell)) commas++;
      else if (/^\s*-?\d*\.\d+\s*$/.test(cell)) points++;
    }
  }
  return commas > points ? ',' : '.';
}

function jsonColumns(records: readonly HeadRecord[]): { columns: string[]; sample: string[][] } {
  const names = new Set<string>();
  const objects: Record<string, unknown>[] = [];
  for (const { text } of records) {
    try {
      const value: unknown = JSON.parse(text);
      if (typeof value !== 'object' || value === null || Array.isArray(value)) continue;
      objects.push(value as Record<string, unknown>);
      for (const name of Object.keys(value)) names.add(name);
    } catch {
      // Rows that are not JSON are set aside by the load, with their reason.
    }
  }
  const columns = [...names];
  const cell = (value: unknown) =>
    value === null || value === undefined ? '' : typeof value === 'object' ? JSON.stringify(value) : String(value);
  return { columns, sample: objects.map((object) => columns.map((name) => cell(object[name]))) };
}

function checkDelimiter(shown: string, options: ReadingOptions, header: HeadRecord, guess: string | undefined): void {
  if (options.delimiter === undefined || header.fields > 1 || guess === undefined || guess === options.delimiter)
    return;
  refuse(
    shown,
    `with the delimiter ${nameDelimiter(options.delimiter)} the header is one column; it seems to use ${nameDelimiter(guess)}.`,
    `Write \`delimiter: ${JSON.stringify(guess)}\` in the mapping, or leave the key out: it is found by itself.`,
    header.line,
  );
}

/**
 * Looks at the head of a file: packing, encoding, format, delimiter, decimal mark, names of the columns. What the mapping
 * says goes before what is seen.
 * @throws ExpectedFailure of kind `data`: missing, empty, header only, wrong delimiter, not UTF-8, a line over the limit
 */
export async function inspectSource(
  file: string,
  shown: string,
  options: ReadingOptions,
  limitBytes: number = LINE_LIMIT_BYTES,
): Promise<Source> {
  const magic = await readMagic(file, shown);
  const empty = options.empty ?? [];
  if (magic.length === 0)
    refuse(shown, 'the file is empty.', 'Fetch it again from its supplier, or take it out of the mapping.');
  if (options.format === 'parquet' || (options.format === undefined && magic.toString('latin1', 0, 4) === 'PAR1')) {
    return { format: 'parquet', file, shown, decimal: '.', empty };
  }
  if (magic.toString('latin1', 0, 4) === 'PK\u0003\u0004') {
    refuse(
      shown,
      'this is a zip archive (or a spreadsheet).',
      'Unpack it, or save the sheet as CSV, and name that file.',
    );
  }
  const compression: Compression = magic[0] === 0x1f && magic[1] === 0x8b ? 'gzip' : 'none';
  const wide = magic[0] === 0xff && magic[1] === 0xfe ? true : magic[0] === 0xfe && magic[1] === 0xff;
  const encoding = options.encoding ?? (wide ? 'utf-16' : 'utf-8');
  const { head, whole } = await readHead(sourceBytes(file, shown, compression, encoding), limitBytes);
  if (head.length === 0)
    refuse(shown, 'the file is empty.', 'Fetch it again from its supplier, or take it out of the mapping.');
  const format = options.format ?? (/^\s*\{\s*["}]/.test(head.toString('utf8', 0, 100)) ? 'jsonl' : 'csv');
  const quote = format === 'jsonl' ? '' : (options.quote ?? '"');
  const guess = format === 'jsonl' ? '' : guessDelimiter(head, whole, quote, limitBytes);
  const delimiter = format === 'jsonl' ? '' : (options.delimiter ?? guess ?? ',');
  const records = headRecords(head, whole, syntaxOf({ delimiter, quote, limitBytes }));
  const [header] = records;
  if (header === undefined) {
    if (!whole) refuseLongLine(shown, 1, limitBytes);
    refuse(shown, 'the file has only empty lines.', 'Fetch it again from its supplier.');
  }
  if (header.fault === 'too_long') refuseLongLine(shown, header.line, limitBytes);
  if (encoding === 'utf-8' && !isUtf8(Buffer.from(head.subarray(0, head.indexOf(10) + 1)))) refuseEncoding(shown, 1);
  if (header.fault !== undefined) {
    refuse(
      shown,
      'a quote in the header is not closed.',
      'Correct the header, or set `quote` in the mapping.',
      header.line,
    );
  }
  const base = { format, file, shown, compression, encoding, delimiter, quote, empty, limitBytes };
  if (format === 'jsonl') {
    const { columns, sample } = jsonColumns(records);
    if (columns.length === 0)
      refuse(shown, 'no line of its first ones is a JSON object.', 'JSON lines have one object {...} a line.');
    return { ...base, format: 'jsonl', decimal: options.decimal ?? '.', columns, sample };
  }
  checkDelimiter(shown, options, header, guess);
  const columns = splitRecord(header.text, delimiter, quote).map((name) => name.trim());
  if (records.length === 1 && whole) {
    refuse(
      shown,
      `there is a header and no row below it. Columns: ${listWords(columns)}.`,
      'Fetch the file again, or take it out of the mapping.',
    );
  }
  const sample = records.slice(1).flatMap(({ text, fault }) => (fault ? [] : [splitRecord(text, delimiter, quote)]));
  return { ...base, format: 'csv', decimal: options.decimal ?? guessDecimal(sample, delimiter), columns, sample };
}
