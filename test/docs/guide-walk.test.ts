import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runLeatherbook } from '../helpers/run-leatherbook.ts';
import { commandLines, readDoc } from './read-docs.ts';

const folder = mkdtempSync(join(tmpdir(), 'leatherbook-guide-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The guide writes PLAY where the reader puts a play of his own. */
function somePlay(): string {
  return /^([^,]+),/.exec(readFileSync(join(folder, 'entries.csv'), 'utf8').split('\n')[1] ?? '')?.[1] ?? '';
}

test('the guide can be walked through, command by command', { timeout: 180_000 }, async () => {
  for (const words of commandLines(readDoc('docs/guide.md'))) {
    const args = words.map((word) => (word === 'PLAY' ? somePlay() : word));
    const ended = await runLeatherbook(args, folder);
    expect(ended, args.join(' ')).toMatchObject({ code: 0, err: '' });
    if (!args.includes('--out')) expect(ended.out, args.join(' ')).not.toBe('');
  }
});
