import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layStairs, TEXT_PX } from '../../../web/charts/stair-layout.ts';
import { playStairs, type StairEntry, type Stairs, sumStairs, trialStairs } from '../../../web/charts/stair-rows.ts';
import Staircase from '../../../web/charts/staircase.svelte';
import { textWidthPx, wrapText } from '../../../web/charts/wrap-text.ts';
import { expectGolden } from '../../helpers/golden.ts';
import { renderSvg } from '../../helpers/render-svg.ts';

const NOTES = { opening: 'ball and batter only', set: 'where they stood', gathered: 'ball in hand', closed: 'an out' };
const FORTY_LETTERS = 'Maximiliana Osterhagen-Vandermolenbroeck';

const step = (kind: StairEntry['kind'], who: string, outs: number): StairEntry => ({
  kind,
  who,
  outs,
  runs: 0.75 * outs,
});

const FULL = playStairs(
  { opening: 0.44, set: 0.67, gathered: 0.92, closed: 1 },
  [
    step('placement', 'Ilva Brandt', 0.19),
    step('placement', 'Teo Marsh', 0.04),
    step('reach', 'Teo Marsh', -0.02),
    step('reach', FORTY_LETTERS, 0.27),
    step('finish', FORTY_LETTERS, 0.08),
    step('turn', 'Ilva Brandt', 0.4),
  ],
  NOTES,
);
const GROUND = playStairs(
  { opening: 0.6, set: null, gathered: 0, closed: 0 },
  [step('ground', 'Ilva Brandt', -0.45), step('ground', 'Teo Marsh', -0.15), step('ground', 'C. Odell', -0.0002)],
  NOTES,
);
const WHOLE = playStairs(
  { opening: 0.81, set: null, gathered: null, closed: 1 },
  [step('whole', 'Ilva Brandt', 0.1), step('whole', 'Teo Marsh', 0.09)],
  NOTES,
);
const TRIAL = trialStairs(
  { opening: 0.44, set: 0.31, setBefore: 0.67 },
  [step('placement', 'Ilva Brandt', -0.13)],
  NOTES,
);
const SEASON = sumStairs(
  [
    { kind: 'placement', who: '', outs: 9.6, runs: 7.2 },
    { kind: 'reach', who: '', outs: -14.1, runs: -10.6 },
    { kind: 'finish', who: '', outs: 5.9, runs: 4.4 },
    { kind: 'turn', who: '', outs: 0, runs: 0 },
  ],
  { outs: 1.4, runs: 1.0, interval: [-5.1, 7.1] },
);

describe('the staircase', () => {
  it.each<[string, Stairs, number]>([
    ['staircase-full', FULL, 620],
    ['staircase-narrow', FULL, 330],
    ['staircase-ground', GROUND, 620],
    ['staircase-whole', WHOLE, 620],
    ['staircase-trial', TRIAL, 620],
    ['staircase-season', SEASON, 620],
  ])('draws %s', (name, stairs, widthPx) => {
    expectGolden(name, renderSvg(Staircase, { stairs, label: 'Chance of an out, step by step', widthPx }));
  });

  it('climbs without a gap from opening to closed, whatever the entries', () => {
    const outs = fc.double({ min: -0.4, max: 0.4, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(outs, { maxLength: 5 }),
        fc.array(outs, { maxLength: 6 }),
        outs,
        (placements, reaches, finish) => {
          const sum = (list: readonly number[]) => list.reduce((total, each) => total + each, 0);
          const set = 0.5 + sum(placements);
          const gathered = set + sum(reaches);
          const { rows, low, high } = playStairs(
            { opening: 0.5, set, gathered, closed: gathered + finish },
            [
              ...placements.map((each, k) => step('placement', `a${k}`, each)),
              ...reaches.map((each, k) => step('reach', `b${k}`, each)),
              step('finish', 'c', finish),
            ],
            NOTES,
          );
          let at = 0.5;
          for (const row of rows) {
            // Entries too small to be drawn leave a gap no wider than they are.
            expect(row.type === 'step' ? row.from : row.value).toBeCloseTo(at, 2);
            at = row.type === 'step' ? row.to : row.value;
            expect(at).toBeGreaterThanOrEqual(low);
            expect(at).toBeLessThanOrEqual(high);
          }
          expect(at).toBeCloseTo(gathered + finish, 12);
        },
      ),
    );
  });

  it('keeps every word out of the plot, where the lines are, for any name and width', () => {
    const name = fc.string({ minLength: 1, maxLength: 60, unit: fc.constantFrom(...'abc nop-WM') });
    fc.assert(
      fc.property(name, fc.integer({ min: 300, max: 900 }), (who, widthPx) => {
        const layout = layStairs(
          playStairs(
            { opening: 0.1, set: 0.9, gathered: 0.2, closed: 1 },
            [step('placement', who, 0.8), step('reach', who, -0.7), step('finish', who, 0.8)],
            NOTES,
          ),
          widthPx,
        );
        const plotLeft = Math.min(...layout.ticks.map(({ x }) => x));
        const plotRight = Math.max(...layout.ticks.map(({ x }) => x));
        for (const { row, beside, below } of [...layout.marks, ...layout.steps]) {
          const before = row.type === 'step' ? `${row.kind} ` : `${row.name} `;
          const indent = row.type === 'step' ? layout.indentPx : 0;
          if (beside !== '') expect(indent + textWidthPx(before + beside, TEXT_PX)).toBeLessThanOrEqual(plotLeft);
          for (const { text } of below) expect(indent + textWidthPx(text, TEXT_PX)).toBeLessThanOrEqual(plotLeft);
        }
        for (const { row } of layout.steps)
          expect(layout.outsX - textWidthPx(row.outs.toFixed(3), TEXT_PX)).toBeGreaterThanOrEqual(plotRight - 1);
        const drawn = layout.steps.map(({ beside, below }) =>
          [beside, ...below.map(({ text }) => text)].join('').replaceAll(' ', ''),
        );
        for (const text of drawn) expect(text).toBe(who.replaceAll(' ', ''));
      }),
    );
  });

  it('shows as one those entries that are too small to see alone, and none when they are nothing together', () => {
    const small = Array.from({ length: 4 }, (_, k) => step('reach', `m${k}`, 0.0003));
    const { rows } = playStairs({ opening: 0.5, set: 0.5, gathered: 0.5012, closed: 1 }, small, NOTES);
    expect(rows.filter((row) => row.type === 'step')).toMatchObject([{ who: '4 others', kind: 'reach' }]);
    expect(GROUND.rows.filter((row) => row.type === 'step')).toHaveLength(2);
  });
});

describe('wrapping', () => {
  it('loses no letter and keeps to the width', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'ab ') }), fc.integer({ min: 20, max: 300 }), (text, width) => {
        const lines = wrapText(text, width, 14);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(line.length <= 1 || textWidthPx(line, 14) <= width).toBe(true);
      }),
    );
  });
});
