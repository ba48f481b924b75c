import { expect, test } from 'vitest';
import { bugText, failureText } from '../../src/cli/failure-text.ts';
import { systemFailure } from '../../src/cli/system-failure.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';

test('a failure says what, where and what to do', () => {
  const failure = new ExpectedFailure('data', 'the speed is no number', 'Correct the row or leave the cell empty.', {
    file: 'balls.csv',
    line: 12,
    column: 'Speed',
    value: 'fast "ish"',
  });
  expect(failureText(failure)).toBe(
    [
      'leatherbook: the speed is no number',
      '  where:  balls.csv:12, column Speed, value "fast \\"ish\\""',
      '  to do:  Correct the row or leave the cell empty.',
      '',
    ].join('\n'),
  );
});

test('a failure without a place has no line for it, and a long value is cut', () => {
  expect(failureText(new ExpectedFailure('usage', 'no', 'Do.'))).toBe('leatherbook: no\n  to do:  Do.\n');
  const long = failureText(new ExpectedFailure('data', 'no', 'Do.', { line: 3, value: 'x'.repeat(5000) }));
  expect(long).toContain(`where:  line 3, value "${'x'.repeat(80)}..."`);
});

test('control characters of the data do not reach the terminal', () => {
  const text = failureText(
    new ExpectedFailure('data', 'a\u001b[31mb', 'Do.', { file: 'x\u0007.csv', value: '\u001b' }),
  );
  expect(text).toBe('leatherbook: a·[31mb\n  where:  x·.csv, value "\\u001b"\n  to do:  Do.\n');
});

test('a bug apologises, and shows its stack only when asked', () => {
  const bug = new TypeError('x is not a thing');
  expect(bugText(bug, false)).toMatch(/^leatherbook: sorry, .*x is not a thing\n {2}to do: .*LEATHERBOOK_DEBUG=1/);
  expect(bugText(bug, false)).not.toContain('failure-text.test');
  expect(bugText(bug, true)).toContain('failure-text.test');
  expect(bugText('thrown text', false)).toContain('thrown text');
});

test('refusals of the operating system are expected failures, other errors are not', () => {
  const refusal = (code: string) => Object.assign(new Error(`${code}: refused`), { code, path: '/books/a' });
  expect(systemFailure(refusal('ENOSPC'))).toMatchObject({ kind: 'book', message: 'the disk is full' });
  expect(systemFailure(refusal('EACCES'))).toMatchObject({ kind: 'usage', place: { file: '/books/a' } });
  expect(systemFailure(refusal('EBADF'))).toBeNull();
  expect(systemFailure(new Error('plain'))).toBeNull();
});
