import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { FUNCTIONS } from '../../src/intake/expression.ts';
import { DIRECTION_NAMES } from '../../src/intake/frames.ts';
import { COLUMN_KEYS, ENCODINGS, FORMATS, READING_KEYS } from '../../src/intake/mapping-schema.ts';
import { UNIT_NAMES } from '../../src/intake/units.ts';
import { workspace } from './workspace.ts';

const PAGE = readFileSync(fileURLToPath(new URL('../../docs/mapping.md', import.meta.url)), 'utf8');

/** Examples of the page: files up to a mapping, and the result after it. */
const EXAMPLES = PAGE.split(/^## /m)
  .slice(1)
  .flatMap((section) => {
    const blocks = [...section.matchAll(/^```(\w+) ([^\n]+)\n(.*?)^```/gms)].map(([, , info, text]) => ({
      info: info!,
      text: text!,
    }));
    const title = section.split('\n')[0]!;
    return blocks.length === 0 ? [] : [{ title, blocks }];
  });

test('the page has its examples', () => {
  expect(EXAMPLES.map(({ title }) => title)).toEqual([
    'A whole one',
    'Tables and files',
    'Columns',
    'Expressions',
    'Frames and spots',
    'Wide starts',
  ]);
});

test.each(EXAMPLES)('the example of "$title" gives what the page says', async ({ blocks }) => {
  const at = workspace();
  try {
    let mapping = '';
    let results = 0;
    for (const { info, text } of blocks) {
      if (info === 'mapping.yaml') mapping = text;
      else if (!info.startsWith('result ')) at.write(info, text);
      else {
        const report = await at.intake(mapping);
        expect(report.setAside).toBe(0);
        const [header, ...lines] = text.trimEnd().split('\n') as [string, ...string[]];
        const rows = await at.rows(`SELECT ${header} FROM ${info.slice(7)} ORDER BY rowid`);
        const cell = (value: unknown) =>
          value === null ? '' : typeof value === 'number' ? String(Math.round(value * 1000) / 1000) : String(value);
        expect(rows.map((row) => Object.values(row).map(cell).join(','))).toEqual(lines);
        results++;
      }
    }
    expect(results).toBe(1);
  } finally {
    at.remove();
  }
});

describe('the page names', () => {
  test.each([
    ...READING_KEYS,
    ...COLUMN_KEYS,
    ...FORMATS,
    ...ENCODINGS,
    ...DIRECTION_NAMES.filter((name) => name !== 'center_field'),
    ...UNIT_NAMES,
    ...Object.keys(FUNCTIONS),
  ])('%s', (word) => {
    expect(PAGE).toMatch(new RegExp(`[\`{, \`]${word.replace(/[/]/g, '\\/')}[\`:,(]`));
  });
});
