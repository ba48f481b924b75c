import { expect, it } from 'vitest';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { manTerm, menAt } from '../../src/chances/man-term.ts';
import { fabricatePlays } from './fabricated-plays.ts';

it('numbers the men of a position in the order in which they come, and leaves 0 to those without a name', () => {
  const grounders = selectGrounders(fabricatePlays(['Reed', 'Moor', 'Reed', 'Fell'].map((club) => ({ club }))));
  const { table } = grounders;
  const nameless = { ...grounders, table: { ...table, fielder: table.fielder.slice() } };
  nameless.table.fielder[1 * 9 + 5] = -1;
  const all = Int32Array.of(0, 1, 2, 3);
  expect(menAt(grounders, 6, all)).toEqual({ level: Uint16Array.of(1, 2, 1, 3), count: 3 });
  expect(menAt(nameless, 6, all)).toEqual({ level: Uint16Array.of(1, 0, 1, 2), count: 2 });
  expect(manTerm(menAt(grounders, 6, all))).toMatchObject({ covariate: 'man', levels: 4 });
});
