import { expect, it } from 'vitest';
import { ENTRY_KINDS, FINISH, GROUND_ENTRY, PLACEMENT, REACH, WHOLE_ENTRY } from '../../src/ledger/entry-kinds.ts';
import { EntryList } from '../../src/ledger/entry-list.ts';

it('keeps entries in order while it grows', () => {
  const list = new EntryList(1);
  for (let k = 0; k < 1000; k += 1) list.add(k, 1 + (k % 9), k % 6, (k + 1) / 7, 0.75);
  expect(list.count).toBe(1000);
  for (const k of [0, 15, 16, 17, 511, 999]) {
    const outs = (k + 1) / 7;
    expect([list.play[k], list.position[k], list.kind[k], list.outs[k]]).toEqual([k, 1 + (k % 9), k % 6, outs]);
    expect(list.runs[k]).toBe(outs * 0.75);
  }
});

it('takes no entry of exactly nothing', () => {
  const list = new EntryList(4);
  list.add(1, 6, REACH, 0, 0.75);
  list.add(1, 6, REACH, -0, 0.75);
  list.add(1, 6, REACH, 1e-300, 0.75);
  expect(list.count).toBe(1);
});

it('has its kinds in the order of a play', () => {
  expect([PLACEMENT, REACH, FINISH, GROUND_ENTRY, WHOLE_ENTRY].map((kind) => ENTRY_KINDS[kind])).toEqual([
    'placement',
    'reach',
    'finish',
    'ground',
    'whole',
  ]);
});
