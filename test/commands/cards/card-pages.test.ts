import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { cardPages } from '../../../src/commands/cards/card-pages.ts';
import { layCard } from '../../../src/commands/cards/lay-card.ts';
import { startTypeSetter } from '../../../src/commands/cards/type-setter.ts';
import { cardPlan } from '../../helpers/card-plan.ts';
import { TEST_NOW } from '../../helpers/temporary-book.ts';

const LONG = 'Wilhelmina-Bartholomea Featherstonehaugh';
const names = new Map([['f4', LONG]]);
const options = { paper: 'a4', names, season: 2033, now: TEST_NOW } as const;
const setter = () => startTypeSetter(new PDFDocument());
const pagesOf = (pdf: Buffer) => pdf.toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 0;

describe('pages of cards', () => {
  it('has six cards a page, the same bytes every time', async () => {
    const plans = Array.from({ length: 7 }, () => cardPlan());
    const pdf = await cardPages(plans, options);
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(pagesOf(pdf)).toBe(2);
    expect(pagesOf(await cardPages(plans.slice(1), { ...options, paper: 'letter' }))).toBe(1);
    expect((await cardPages(plans, options)).equals(pdf)).toBe(true);
  });

  it('makes a card higher for what does not fit, and loses none of it', () => {
    const document = new PDFDocument();
    const lay = (warnings: string[]) =>
      layCard(document, startTypeSetter(document), cardPlan({ warnings }), names, 2033, 250).height;
    const warning = 'The third baseman has less than 0.4 s on the hardest balls of this batter. ';
    const heights = [0, 8, 16].map((count) => lay(Array(count).fill(warning)));
    expect(heights[1]!).toBeGreaterThan(heights[0]! + 100);
    // Two lines and a little space each, at the least.
    expect(heights[2]! - heights[1]!).toBeGreaterThan(8 * (2 * 9 + 1));
  });
});

describe('setting type', () => {
  it('wraps between words and after hyphens, and keeps every letter and the width', () => {
    const set = setter();
    for (const text of [LONG, 'X'.repeat(60), 'one two', ''])
      for (const width of [40, 90, 400]) {
        const lines = set.wrap(text, 9, 'bold', width);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(set.widthOf(line, 9, 'bold')).toBeLessThanOrEqual(width);
      }
    expect(set.wrap(LONG, 9, 'bold', 90)[0]).toBe('Wilhelmina-');
  });

  it('has letters beyond the English ones, composed or not, and says which it lacks', () => {
    const set = setter();
    for (const name of ['Žáneta Łukaszewicz', 'Z\u030ca', 'Алексей Петров', 'Νίκος', 'Nguyễn'])
      expect(set.canSet(name)).toBe(true);
    expect(set.canSet('山田')).toBe(false);
    expect(set.widthOf('Алексей', 9, 'regular')).toBeGreaterThan(25);
  });
});
