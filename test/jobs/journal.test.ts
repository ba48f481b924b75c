import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openJournal } from '../../src/jobs/journal.ts';
import { type TemporaryFolder, temporaryFolder } from '../helpers/temporary-book.ts';

describe('journal', () => {
  let folder: TemporaryFolder;
  let path = '';
  beforeEach(() => {
    folder = temporaryFolder();
    path = join(folder.path, 'journal.jsonl');
  });
  afterEach(() => folder.remove());

  it('has, after any end of the process, every outcome whose line was whole, and takes up from there', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' })), fc.nat(), (answers, cut) => {
        writeFileSync(path, '');
        const first = openJournal<string>(path);
        for (const [n, answer] of answers.entries()) first.add({ key: `k${n}`, answer });
        first.close();
        const bytes = readFileSync(path);
        const kept = bytes.subarray(0, bytes.length - (cut % (bytes.length + 1)));
        writeFileSync(path, kept);
        const wholeLines = kept.toString('latin1').split('\n').length - 1;

        const second = openJournal<string>(path);
        expect(second.outcomes.size).toBe(Math.max(wholeLines - 1, 0));
        expect(second.batch === first.batch).toBe(wholeLines > 0);
        for (const [n, answer] of answers.entries()) second.add({ key: `k${n}`, answer });
        second.close();
        const third = openJournal<string>(path);
        expect([...third.outcomes.values()]).toEqual(answers.map((answer, n) => ({ key: `k${n}`, answer })));
        third.close();
      }),
      { numRuns: 60 },
    );
  });

  it('keeps the first outcome of a key', () => {
    const journal = openJournal<number>(path);
    journal.add({ key: 'a', answer: 1 });
    journal.add({ key: 'a', answer: 2 });
    journal.add({ key: 'b', failure: 'no' });
    journal.close();
    const again = openJournal<number>(path);
    expect([...again.outcomes.values()]).toEqual([
      { key: 'a', answer: 1 },
      { key: 'b', failure: 'no' },
    ]);
    again.remove();
    expect(existsSync(path)).toBe(false);
  });

  it('does not guess at a damaged file', () => {
    openJournal<number>(path).close();
    appendFileSync(path, 'nonsense\n{"key":"a","answer":1}\n');
    expect(() => openJournal<number>(path)).toThrow(/line 2 is not an outcome/);
  });
});
