import { parseHTML } from 'linkedom';
import { expect, it } from 'vitest';
import { cardSvg } from '../../../src/plans/card/card-svg.ts';
import { cardPlan } from '../../helpers/card-plan.ts';

it('has every word of the card, one under the other, and takes names for text', () => {
  const name = 'Wilhelmina-Bartholomea <b>&Featherstonehaugh</b>';
  const warnings = [
    'A warning that is longer than one line of the card can be, so that it has to be wrapped somewhere. '.repeat(2),
  ];
  const svg = cardSvg(cardPlan({ warnings }), new Map([['b1', name]]), 2033);
  const { document } = parseHTML(`<html><body>${svg}</body></html>`);
  const lines = [...document.querySelectorAll('svg > text')].filter((text) => text.closest('svg svg') === null);
  const words = lines.map((line) => line.textContent).join(' ');
  expect(words.replaceAll(' ', '')).toContain(name.replaceAll(' ', ''));
  for (const line of lines)
    expect((line.textContent ?? '').length * Number(line.getAttribute('font-size'))).toBeLessThan(681);
  expect(words).toContain('One out, runners on first and third');
  expect(words.replaceAll(' ', '')).toContain(warnings[0]!.replaceAll(' ', ''));
  const heights = lines.map((line) => Number(line.getAttribute('y')));
  expect(heights).toEqual(heights.toSorted((a, b) => a - b));
  expect(Number(document.querySelector('svg')!.getAttribute('height'))).toBeGreaterThan(heights.at(-1)!);
  expect(document.querySelectorAll('svg svg circle').length).toBeGreaterThan(8);
});
