import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { traceArea } from '../../../src/chances/area-covered.ts';
import { INFIELD_BOUNDARY, outsideArcFt } from '../../../src/diamond/infield-boundary.ts';
import { shareRun, traceMotion } from '../../../web/field/ball-motion.ts';
import { dirtPath } from '../../../web/field/ground-shapes.ts';
import { placeLabels } from '../../../web/field/label-places.ts';
import { spotWords } from '../../../web/field/spot-words.ts';
import PlayField from '../../../web/pages/plays/play-field.svelte';
import { expectGolden } from '../../helpers/golden.ts';
import { renderSvg } from '../../helpers/render-svg.ts';

const bearing = (-24 * Math.PI) / 180;
const motion = traceMotion(Math.sin(bearing), Math.cos(bearing), 150, false, (feet) => 1.95 * Math.expm1(feet / 260));
const area = traceArea(
  (x, y) => 1 / (1 + Math.exp((Math.hypot(x + 53, y - 147) - 18) / 5)),
  -53,
  147,
  [0.1, 0.5, 0.9],
  2,
  60,
);

const man = (position: number, xFt: number, yFt: number, even: readonly [number, number] | null) => ({
  position,
  name: `Man ${position}`,
  xFt,
  yFt,
  evenXFt: even?.[0] ?? Number.NaN,
  evenYFt: even?.[1] ?? Number.NaN,
  movable: even !== null,
  hasPart: position <= 6,
});

const PLAY = {
  label: 'Grounder toward short',
  men: [
    man(1, 0, 56, null),
    man(2, 0, -3, null),
    man(3, 63, 94, [62, 96]),
    man(4, 31, 146, [36, 145]),
    man(5, -68, 95, [-66, 94]),
    { ...man(6, -53, 147, [-41, 140]), wasXFt: -50, wasYFt: 130 },
    man(7, -130, 260, null),
    man(8, Number.NaN, Number.NaN, null),
    man(9, 130, 260, null),
  ],
  chosen: 6,
  zoom: 'infield',
  motion,
  area,
  showEven: true,
  inHand: { position: 6, xFt: 150 * Math.sin(bearing), yFt: 150 * Math.cos(bearing), timeS: 1.7 },
  throwTo: '1B',
  throwText: '134 ft, 2.31 s left',
  seconds: motion.endS,
} as const;

describe('the drawing of a play', () => {
  it('draws the infield as it was when the ball was in hand', () => {
    expectGolden('field-play', renderSvg(PlayField, { ...PLAY }));
  });

  it('draws the moment before: ball and man on their way, no throw yet', () => {
    const svg = renderSvg(PlayField, { ...PLAY, seconds: 0.9, area: [], showEven: false });
    expectGolden('field-moment', svg);
    expect(svg).not.toContain('134 ft');
  });

  it('draws the whole field, a control for each man who can be moved', () => {
    const svg = renderSvg(PlayField, { ...PLAY, zoom: 'whole', widthPx: 360, onMove: () => {} });
    expectGolden('field-whole', svg);
    expect(svg.match(/role="button"/g)).toHaveLength(4);
    expect(svg).toContain(`aria-label="6 shortstop Man 6, ${spotWords(-53, 147)}"`);
  });

  it('draws a play of which nothing but the men is known', () => {
    const svg = renderSvg(PlayField, { ...PLAY, motion: null, area: [], inHand: null, throwTo: '', throwText: '' });
    expect(svg).not.toContain(' s</text>');
    expect(svg).not.toContain('NaN');
  });
});

describe('the ground', () => {
  it('ends the dirt where the outfield grass begins', () => {
    const points = [...dirtPath().matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(
      ([, x, y]) => [Number(x), -Number(y)] as const,
    );
    for (const [x, y] of points.slice(0, -3)) expect(Math.abs(outsideArcFt(x, y, INFIELD_BOUNDARY))).toBeLessThan(0.1);
  });
});

describe('motion', () => {
  it('is where its time says, and nowhere past its end', () => {
    for (const seconds of [0.1, 0.5, 1, 1.4]) {
      const along = motion.distanceAt(seconds);
      expect(1.95 * Math.expm1(along / 260)).toBeCloseTo(seconds, 3);
    }
    expect(motion.distanceAt(0)).toBe(0);
    expect(motion.distanceAt(99)).toBe(150);
    expect(motion.ticks.map(({ seconds }) => seconds)).toEqual([0.5, 1]);
  });

  it('has a man run from his first step to the gather', () => {
    expect(shareRun(0.1, 1.7)).toBe(0);
    expect(shareRun(1.7, 1.7)).toBe(1);
    expect(shareRun(1, 1.7)).toBeCloseTo(0.65 / 1.35, 12);
    expect(shareRun(0.2, 0.3)).toBeCloseTo(1 / 3, 12);
  });
});

describe('places of labels', () => {
  it('take the first place that covers nothing', () => {
    const line = [{ x1: 0, y1: -50, x2: 0, y2: 50 }];
    const places = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: -30, y: 0 },
    ];
    expect(placeLabels([{ text: '1.0 s', places }], line, [], 0.5).get('1.0 s')).toEqual({ x: 30, y: 0 });
    const disc = [{ x: 30, y: 0, radius: 8 }];
    expect(placeLabels([{ text: '1.0 s', places }], line, disc, 0.5).get('1.0 s')).toEqual({ x: -30, y: 0 });
  });

  it('are left out where they may be and every place is on a man', () => {
    const label = { text: '1.0 s', places: [{ x: 0, y: 0 }] };
    const disc = [{ x: 5, y: 0, radius: 8 }];
    expect(placeLabels([{ ...label, mayBeLeftOut: true }], [], disc, 0.5).has('1.0 s')).toBe(false);
    expect(placeLabels([label], [], disc, 0.5).has('1.0 s')).toBe(true);
    expect(placeLabels([{ ...label, mayBeLeftOut: true }], [], [], 0.5).has('1.0 s')).toBe(true);
  });

  it('never lie on each other while there is another place', () => {
    const spot = fc.record({
      x: fc.double({ min: -100, max: 100, noNaN: true }),
      y: fc.double({ min: 0, max: 150, noNaN: true }),
    });
    fc.assert(
      fc.property(spot, (free) => {
        const shared = { x: free.x + 200, y: 0 };
        const placed = placeLabels(
          [
            { text: 'a', places: [shared] },
            { text: 'b', places: [shared, free] },
          ],
          [],
          [],
          0.5,
        );
        expect(placed.get('b')).toEqual(free);
      }),
    );
  });
});

describe('words for a spot', () => {
  it.each([
    [-33.6, 134.9, '139 ft from home, bearing −14'],
    [0, 100, '100 ft from home, bearing 0'],
    [50, 50, '71 ft from home, bearing 45'],
  ])('(%f, %f) is %s', (x, y, words) => {
    expect(spotWords(x, y)).toBe(words);
  });
});
