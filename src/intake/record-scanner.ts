/** What is wrong with the shape of a record, before anybody looks at its cells. */
export type RecordFault = 'unclosed_quote' | 'stray_quote' | 'too_long';

/**
 * Takes one record: bytes `start` to `end` of `bytes` without the line end. The bytes are only lent.
 * `fields` is the number of cells; a record with a fault is its first line alone.
 */
export type RecordSink = (
  bytes: Buffer,
  start: number,
  end: number,
  line: number,
  fields: number,
  fault: RecordFault | undefined,
) => void;

export interface RecordSyntax {
  /** Byte between cells; -1 for files whose records are lines of one cell. */
  readonly delimiter: number;
  /** Byte around cells; -1 for none. It is doubled inside a quoted cell. */
  readonly quote: number;
  /** A record may not be longer than this. */
  readonly limitBytes: number;
}

const LF = 10;
const CR = 13;
const SPACE = 32;
const EMPTY = Buffer.alloc(0);

/**
 * Cuts a stream of bytes into records as RFC 4180 has them: quoted cells may hold line ends; LF, CR LF and CR end a
 * record; empty lines are skipped. Keeps one record in memory, never the file.
 * After a malformed record it goes on at the next line, so that one bad quote costs one line.
 */
export class RecordScanner {
  readonly #syntax: RecordSyntax;
  readonly #sink: RecordSink;
  #rest: Buffer = EMPTY;
  #line = 1;
  // Result of the last #parse.
  #end = 0;
  #next = 0;
  #fields = 0;
  #fault: RecordFault | undefined;
  #newlines = 0;

  constructor(syntax: RecordSyntax, sink: RecordSink) {
    this.#syntax = syntax;
    this.#sink = sink;
  }

  push(chunk: Buffer): void {
    this.#take(chunk, false);
  }

  /** Gives out what is left when the stream has ended. */
  finish(): void {
    this.#take(EMPTY, true);
  }

  #take(chunk: Buffer, final: boolean): void {
    const bytes = this.#rest.length === 0 ? chunk : Buffer.concat([this.#rest, chunk]);
    let position = 0;
    while (position < bytes.length && this.#parse(bytes, position, final)) {
      const { limitBytes } = this.#syntax;
      const blank = this.#end === position;
      if (this.#end - position > limitBytes) this.#fault = 'too_long';
      if (!blank) this.#sink(bytes, position, this.#end, this.#line, this.#fields, this.#fault);
      this.#line += this.#newlines;
      position = this.#next;
    }
    // A copy, so that the rest of a long chunk is let go.
    this.#rest = position === bytes.length ? EMPTY : Buffer.from(bytes.subarray(position));
  }

  /** Finds the end of the record that begins at `start`; false when more bytes are needed to know. */
  #parse(bytes: Buffer, start: number, final: boolean): boolean {
    const { delimiter, quote, limitBytes } = this.#syntax;
    const space = delimiter === SPACE ? -2 : SPACE;
    const length = bytes.length;
    let position = start;
    let fields = 1;
    let newlines = 0;
    let firstLineEnd = -1;
    this.#fault = undefined;
    for (;;) {
      // At the start of a cell. Spaces may stand before an opening quote.
      let cell = position;
      while (cell < length && bytes[cell] === space) cell++;
      if (cell < length && bytes[cell] === quote) {
        position = cell + 1;
        for (;;) {
          const close = bytes.indexOf(quote, position);
          const stop = close < 0 ? length : close;
          for (let at = position; at < stop; at++) {
            const byte = bytes[at]!;
            if (byte !== LF && (byte !== CR || bytes[at + 1] === LF)) continue;
            newlines++;
            if (firstLineEnd < 0) firstLineEnd = at;
          }
          if (close < 0) {
            if (!final && length - start <= limitBytes) return false;
            const fault = firstLineEnd < 0 && length - start > limitBytes ? 'too_long' : 'unclosed_quote';
            return this.#malformed(bytes, start, firstLineEnd, length, fault);
          }
          position = close + 1;
          if (position >= length && !final) return false;
          if (bytes[position] !== quote) break;
          position++;
        }
        while (position < length && bytes[position] === space) position++;
        if (position >= length && !final) return false;
        const after = bytes[position];
        if (position < length && after !== delimiter && after !== LF && after !== CR) {
          if (firstLineEnd < 0) {
            firstLineEnd = position;
            while (firstLineEnd < length && bytes[firstLineEnd] !== LF && bytes[firstLineEnd] !== CR) firstLineEnd++;
            if (firstLineEnd >= length && !final && length - start <= limitBytes) return false;
          }
          return this.#malformed(bytes, start, firstLineEnd, length, 'stray_quote');
        }
      } else {
        position = cell;
        while (position < length) {
          const byte = bytes[position]!;
          if (byte === delimiter || byte === LF || byte === CR) break;
          position++;
        }
      }
      if (position < length && bytes[position] === delimiter) {
        fields++;
        position++;
        continue;
      }
      if (position >= length) {
        if (!final && length - start <= limitBytes) return false;
        this.#set(position, position, fields, newlines);
        if (!final) this.#fault = 'too_long';
        return true;
      }
      if (bytes[position] === CR && position + 1 >= length && !final) return false;
      const width = bytes[position] === CR && bytes[position + 1] === LF ? 2 : 1;
      this.#set(position, position + width, fields, newlines + 1);
      return true;
    }
  }

  #set(end: number, next: number, fields: number, newlines: number): void {
    this.#end = end;
    this.#next = next;
    this.#fields = fields;
    this.#newlines = newlines;
  }

  #malformed(bytes: Buffer, start: number, firstLineEnd: number, length: number, fault: RecordFault): boolean {
    const found = firstLineEnd < 0 || firstLineEnd >= length ? length : firstLineEnd;
    // The line end of a line found inside quotes may be CR LF, of which the CR is not text.
    const end = bytes[found] === LF && found > start && bytes[found - 1] === CR ? found - 1 : found;
    const width = found >= length ? 0 : bytes[found] === CR && bytes[found + 1] === LF ? 2 : 1;
    this.#set(end, found + width, 0, width === 0 ? 0 : 1);
    this.#fault = fault;
    return true;
  }
}

/** The cells of one well-formed record, unquoted. */
export function splitRecord(text: string, delimiter: string, quote: string): string[] {
  const cells: string[] = [];
  let position = 0;
  for (;;) {
    const [spaces] = /^ */.exec(text.slice(position))!;
    let cell: string;
    if (quote !== '' && text[position + spaces.length] === quote) {
      position += spaces.length + 1;
      cell = '';
      for (;;) {
        const close = text.indexOf(quote, position);
        if (close < 0) {
          cell += text.slice(position);
          position = text.length;
          break;
        }
        cell += text.slice(position, close);
        position = close + 1;
        if (text[position] !== quote) break;
        cell += quote;
        position++;
      }
      while (text[position] === ' ') position++;
    } else {
      const end = delimiter === '' ? -1 : text.indexOf(delimiter, position);
      cell = text.slice(position, end < 0 ? text.length : end);
      position = end < 0 ? text.length : end;
    }
    cells.push(cell);
    if (position >= text.length) return cells;
    position++;
  }
}
