import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { RecordScanner, splitRecord } from '../../src/intake/record-scanner.ts';

interface Seen {
  text: string;
  line: number;
  fields: number;
  fault: string | undefined;
}

function scan(text: string | Buffer, sizes: readonly number[] = [], delimiter = ',', limitBytes = 1000): Seen[] {
  const seen: Seen[] = [];
  const syntax = { delimiter: delimiter.charCodeAt(0), quote: 34, limitBytes };
  const scanner = new RecordScanner(syntax, (bytes, start, end, line, fields, fault) => {
    seen.push({ text: bytes.toString('utf8', start, end), line, fields, fault });
  });
  const bytes = Buffer.from(text);
  let at = 0;
  for (const size of sizes) {
    scanner.push(bytes.subarray(at, at + size));
    at += size;
  }
  scanner.push(bytes.subarray(at));
  scanner.finish();
  return seen;
}

const cell = fc.string({ unit: fc.constantFrom('a', 'é', '1', ' ', '"', ',', '\n', '\r\n', '\r', '') });
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 6 });
const quote = (text: string) => (/[",\r\n]|^ | $/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

test('any table comes back, whatever its cells, line ends and the pieces it arrives in', () => {
  fc.assert(
    fc.property(
      table,
      fc.constantFrom('\n', '\r\n', '\r'),
      fc.array(fc.integer({ min: 1, max: 9 })),
      fc.boolean(),
      (rows, end, sizes, last) => {
        const lines = rows.map((row) => row.map(quote).join(','));
        const seen = scan(lines.join(end) + (last ? end : ''), sizes);
        expect(seen.map(({ text }) => splitRecord(text, ',', '"'))).toEqual(rows);
        expect(seen.map(({ fields }) => fields)).toEqual(rows.map((row) => row.length));
        expect(seen.every(({ fault }) => fault === undefined)).toBe(true);
        // The line of a record is the number of line ends before it, and one.
        let before = '';
        for (const [index, { line }] of seen.entries()) {
          expect(line).toBe(before.split(/\r\n|\r|\n/).length);
          before += lines[index] + end;
        }
      },
    ),
  );
});

describe('one bad line costs one line', () => {
  test.each([
    ['a quote that is not closed', 'a,b\n1,"2\n3,4\n', 'unclosed_quote'],
    ['a quote that is not closed, and a quoted cell after it', 'a,b\n1,"2\n3,"4"\n', 'stray_quote'],
    ['text after a closing quote', 'a,b\n1,"2"x\n3,4\n', 'stray_quote'],
    ['text after a closing quote, Windows line ends', 'a,b\r\n1,"2"x\r\n3,4\r\n', 'stray_quote'],
  ])('%s', (_what, text, fault) => {
    for (const sizes of [[], [1, 1, 1, 1, 1, 1, 1, 1], [6]]) {
      const seen = scan(text, sizes);
      expect(seen).toHaveLength(3);
      expect(seen[1]).toMatchObject({ line: 2, fault });
      expect(seen[1]!.text).toMatch(/^1,"2("x)?$/);
      expect(seen[2]).toMatchObject({ line: 3, fields: 2, fault: undefined });
    }
  });

  test('at the end of the file too', () => {
    expect(scan('a,b\n1,"2').at(-1)).toMatchObject({ text: '1,"2', line: 2, fault: 'unclosed_quote' });
  });
});

test('empty lines are skipped and counted', () => {
  expect(scan('\n\na,b\n\n1,2\n\n').map(({ line }) => line)).toEqual([3, 5]);
});

test('a line over the limit is told before the rest of it is read', () => {
  const seen: Seen[] = [];
  const scanner = new RecordScanner(
    { delimiter: 44, quote: 34, limitBytes: 1000 },
    (_bytes, _start, _end, line, fields, fault) => {
      seen.push({ text: '', line, fields, fault });
    },
  );
  scanner.push(Buffer.from(`a,b\n${'x'.repeat(1200)}`));
  expect(seen[1]).toMatchObject({ line: 2, fault: 'too_long' });
});

test('an open quote over the limit costs its first line only', () => {
  const seen = scan(`a,b\n1,"2\n${'3,4\n'.repeat(400)}`);
  expect(seen[1]).toMatchObject({ text: '1,"2', fault: 'unclosed_quote' });
  expect(seen).toHaveLength(402);
});
