import { parseHTML } from 'linkedom';
import { expect, it } from 'vitest';
import { basesOf, drawnStarts } from '../../../src/plans/card/card-words.ts';
import { drawPlan } from '../../../src/plans/card/plan-drawing.ts';
import { cardPlan } from '../../helpers/card-plan.ts';
import { expectGolden } from '../../helpers/golden.ts';

const draw = (plan = cardPlan()) =>
  drawPlan({ starts: drawnStarts(plan), runners: basesOf(plan.runners), season: 2033, width: 144, height: 128 });

/** Centre of the disc beside which a position number stands. */
function discs(svg: string): Map<string, [number, number]> {
  const { document } = parseHTML(`<html><body>${svg}</body></html>`);
  return new Map(
    [...document.querySelectorAll('text')].map((text) => {
      const disc = text.previousElementSibling!;
      return [text.textContent ?? '', [Number(disc.getAttribute('cx')), Number(disc.getAttribute('cy'))]];
    }),
  );
}

it('draws the same picture as ever', () => {
  expectGolden('plan-drawing', `${draw()}\n`);
});

it('is to scale: a foot is as long everywhere and either way', () => {
  const plan = cardPlan();
  const at = discs(draw(plan));
  const scales = plan.starts.flatMap((a, k) =>
    plan.starts.slice(k + 1).map((b) => {
      const [ax, ay] = at.get(String(a.position))!;
      const [bx, by] = at.get(String(b.position))!;
      return Math.hypot(ax - bx, ay - by) / Math.hypot(a.start_x_ft - b.start_x_ft, a.start_y_ft - b.start_y_ft);
    }),
  );
  for (const scale of scales) expect(scale).toBeCloseTo(scales[0]!, 2);
  expect(scales[0]).toBeGreaterThan(0.6);
});

it('keeps everybody inside the picture, outfielders too', () => {
  const plan = cardPlan();
  const far = { ...plan.starts[0]!, position: 7, start_x_ft: -180, start_y_ft: 330, even_x_ft: -150, even_y_ft: 300 };
  for (const [x, y] of discs(draw({ ...plan, starts: [...plan.starts, far] })).values()) {
    expect(x).toBeGreaterThan(5);
    expect(x).toBeLessThan(139);
    expect(y).toBeGreaterThan(5);
    expect(y).toBeLessThan(123);
  }
});

it('has an arrow only where disc and ring leave room for one, and no colour', () => {
  const svg = draw();
  expect(svg.match(/<polygon/g)).toHaveLength(2); // home plate and the shortstop's arrow
  for (const [, colour] of svg.matchAll(/#([0-9a-f]+)/g)) expect(new Set(colour).size).toBe(1);
});
