import { expect, it } from 'vitest';
import { expectedShift, expectShifts } from '../../src/ratings/expected-shifts.ts';
import { homePositions } from '../../src/ratings/home-positions.ts';
import { about, ManPosterior, normalCell } from '../../src/ratings/man-posterior.ts';
import type { Facet, ManFacet, SkillWindow } from '../../src/ratings/skill-window.ts';

/** A man at a facet whose shift was measured to be `shift`, each of `rows` times with variance 1. */
function measured(man: number, facet: Facet, shift: number, rows: number): ManFacet {
  const cell = normalCell(rows, rows * shift, 1);
  const all = { ...cell, rows, chances: rows, surplus: 0 } as ManFacet['all'];
  return { man, facet, all, byDirection: new Map() };
}

const shiftOf = ({ done, rows }: ManFacet['all']) => done / rows;

const SPREAD = 0.5;
const LEFT = 17;
const homes = new Map([
  [1, 7],
  [2, 7],
  [3, 8],
  [4, 8],
  [5, 8],
  [6, 9],
]);
const men = [
  measured(1, LEFT, 0.4, 400),
  measured(2, LEFT, -0.4, 400),
  measured(3, LEFT, 0.9, 30),
  measured(4, LEFT, 0.7, 30),
  measured(5, LEFT, 0.8, 30),
  measured(6, LEFT, -0.1, 3),
];
const shifts = expectShifts([{ facet: LEFT, men }], homes, new Map([[LEFT, SPREAD]]));
const expected = shifts.get(LEFT)!;

it('expects of visitors what men of their home position showed, drawn in', () => {
  const fromCentre = expected.get(8)!;
  // Three shifts of mean 0.8, each known to 1 / 30 about a mean of its own: variance (0.25 + 0.033) / 3 before it is drawn in.
  const error = Math.sqrt((SPREAD ** 2 + 1 / 30) / 3);
  expect(fromCentre.mean).toBeGreaterThan(0.1);
  expect(fromCentre.mean).toBeLessThan(0.8);
  expect(fromCentre.sd).toBeLessThan(error);
});

it('counts in the spread between men of the position: twice the shifts beside twice the spread are twice the means', () => {
  const doubled = men.map(({ man, all }) => measured(man, LEFT, 2 * shiftOf(all), all.rows / 4));
  const twice = expectShifts([{ facet: LEFT, men: doubled }], homes, new Map([[LEFT, 2 * SPREAD]])).get(LEFT)!;
  for (const home of [8, 9]) {
    expect(twice.get(home)!.mean).toBeCloseTo(2 * expected.get(home)!.mean, 9);
    expect(twice.get(home)!.sd).toBeCloseTo(2 * expected.get(home)!.sd, 9);
  }
});

it('tells classes of balls and positions apart', () => {
  const CENTRE = 18;
  const back = [measured(1, CENTRE, -0.9, 30), measured(2, CENTRE, -0.7, 30)];
  const both = expectShifts(
    [
      { facet: LEFT, men },
      { facet: CENTRE, men: back },
    ],
    homes,
    new Map([
      [LEFT, SPREAD],
      [CENTRE, SPREAD],
    ]),
  );
  expect(both.get(CENTRE)!.get(7)!.mean).toBeLessThan(-0.1);
  // Left fielders who are worse in centre say what centre fielders who are better in left say.
  expect(both.get(LEFT)!.get(8)!.mean).toBeGreaterThan(expected.get(8)!.mean);
});

it('expects nothing of men at home, who make the zero', () => {
  expect(expected.has(7)).toBe(false);
  expect(expectedShift({ homes, shifts }, LEFT, 1)).toEqual({ mean: 0, sd: 0 });
  expect(expectedShift({ homes, shifts }, LEFT, 3)).toBe(expected.get(8));
});

it('moves evidence: a prior about a mean is one about 0 on moved evidence', () => {
  const cell = normalCell(10, 4, 2);
  const posterior = new ManPosterior();
  posterior.fit([about(0.3, cell)], Float64Array.of(0.25));
  const precision = 10 / 2 + 1 / 0.25;
  expect(0.3 + posterior.shift[0]!).toBeCloseTo((4 / 2 + 0.3 / 0.25) / precision, 9);
  expect(about(0, cell).curve).toBe(cell.curve);
});

it('finds home where a man had the largest share of the chances, not the most of them', () => {
  const league = (chances: number) => ({ all: { rows: 0, chances }, byDirection: new Map() });
  const window = {
    facets: new Map([
      [4, { men: [measured(1, 4, 0, 30)], league: { facet: 4, ...league(3000) } }],
      [13, { men: [measured(1, 13, 0, 20)], league: { facet: 13, ...league(200) } }],
    ]),
  } as unknown as SkillWindow;
  expect(homePositions(window).get(1)).toBe(3);
});
