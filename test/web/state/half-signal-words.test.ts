import { expect, test } from 'vitest';
import { halfSignalWords } from '../../../web/state/half-signal-words.ts';

const row = (chances: number | null, low: number | null, high: number | null) => ({
  kind: 'reach',
  position: 6,
  half_signal_chances: chances,
  half_signal_chances_lo95: low,
  half_signal_chances_hi95: high,
});

test('half signal is said with its interval, and without an end where there is none', () => {
  expect(halfSignalWords([row(26.4, 15.1, 43.6)], 'reach')).toBe('reach after 26 chances (95\u00a0%: 15 to 44)');
  expect(halfSignalWords([row(138, 24, null)], 'reach')).toBe('reach after 138 chances (95\u00a0%: 24 or more)');
  // No signal was found, and none can be ruled out above the bound.
  expect(halfSignalWords([row(null, 47, null)], 'reach')).toBe('reach not within 47 chances');
  expect(halfSignalWords([row(26, 15, 44)], 'finish')).toBe(null);
});
