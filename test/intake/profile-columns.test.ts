import { expect, test } from 'vitest';
import { nameWords, profileColumns } from '../../src/intake/profile-columns.ts';

test.each([
  ['exit_speed_mph', ['exit', 'speed'], 'mph'],
  ['Exit Speed (km/h)', ['exit', 'speed'], 'km/h'],
  ['exitSpeedKmh', ['exit', 'speed'], 'km/h'],
  ['Hang-Time [ms]', ['hang', 'time'], 'ms'],
  ['x', ['x'], undefined],
  ['m', ['m'], undefined],
  ['Élan', ['élan'], undefined],
  ['Note (other)', ['note', 'other'], undefined],
] as const)('the words and the unit of %s', (name, words, unit) => {
  expect(nameWords(name)).toEqual({ words, unit });
});

test('what is in a column', () => {
  const rows = [
    ['1', '1,5', '03/04/31', '2031-04-03', 'a', ''],
    ['2', '-2,5', '13/04/31', '2031-04-13T10:00', 'b', ' '],
  ];
  const [whole, decimal, day, iso, text, empty] = profileColumns(['a', 'b', 'c', 'd', 'e', 'f'], rows, ',');
  expect(whole).toMatchObject({ kind: 'number', whole: true, min: 1, max: 2 });
  expect(decimal).toMatchObject({ kind: 'number', whole: false, min: -2.5, max: 1.5 });
  expect(day).toMatchObject({ kind: 'date', format: '%d/%m/%y' });
  expect(iso).toMatchObject({ kind: 'date', format: undefined });
  expect(text).toMatchObject({ kind: 'text', values: ['a', 'b'] });
  expect(empty).toMatchObject({ kind: 'empty', values: [] });
});

test('a second number above 12 means that the month comes first', () => {
  expect(profileColumns(['a'], [['04-03-2031'], ['04-13-2031']], '.')[0]).toMatchObject({ format: '%m-%d-%Y' });
  expect(profileColumns(['a'], [['2031.04.13']], '.')[0]).toMatchObject({ format: '%Y.%m.%d' });
});
