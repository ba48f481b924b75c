import { expect, it } from 'vitest';
import { createRandom } from '../../../src/numeric/random.ts';
import PlanField from '../../../web/pages/plan/plan-field.svelte';
import { expectGolden } from '../../helpers/golden.ts';
import { renderSvg } from '../../helpers/render-svg.ts';

const random = createRandom(7);
/** Balls about a spot of the field. */
const spots = (count: number, x: number, y: number) => ({
  xFt: Float64Array.from({ length: count }, () => x + 40 * (random.next() + random.next() - 1)),
  yFt: Float64Array.from({ length: count }, () => y + 30 * (random.next() + random.next() - 1)),
  weight: new Float64Array(count).fill(1),
});

const man = (position: number, at: readonly [number, number], movable: boolean) => ({
  position,
  name: `Man ${position}`,
  at,
  even: [at[0] - 9, at[1] + 4] as const,
  own: [at[0] + 12, at[1] - 6] as const,
  movable,
});

const PLAN = {
  label: 'Where to stand',
  men: [
    man(1, [0, 56], false),
    man(2, [0, -3], false),
    man(3, [63, 94], true),
    man(4, [31, 146], true),
    man(5, [-68, 95], true),
    { ...man(6, [-53, 147], true), planned: [-40, 150] as const },
    man(7, [-130, 260], false),
    man(8, [0, 320], false),
    man(9, [130, 260], false),
  ],
  chosen: 6,
  zoom: 'infield',
  runners: [1, 3],
  balls: { likely: spots(60, -30, 130), seen: spots(9, -30, 130), smoothFt: 8 },
} as const;

it('draws a plan: likely balls, even and own spots, planned starts, runners', () => {
  const svg = renderSvg(PlanField, { ...PLAN });
  expectGolden('field-plan', svg);
  expect(svg.match(/runner on base/g)).toHaveLength(2);
  expect(svg).not.toContain('NaN');
});

it('draws who can be moved as controls, and no balls where none are asked for', () => {
  const svg = renderSvg(PlanField, { ...PLAN, balls: null, onMove: () => {} });
  expect(svg.match(/role="button"/g)).toHaveLength(4);
  expect(svg).not.toContain('evenodd');
});
