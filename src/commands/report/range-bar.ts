import { type Html, html } from './html.ts';
import { type Range, rangeText, signed } from './numbers.ts';

const WIDTH = 150;
const HEIGHT = 16;
const EDGE = 5;

/** Draws dots with bars on one axis. */
export interface RangeBars {
  readonly head: Html;
  draw(range: Range): Html | null;
}

/** An axis that holds all the ranges, with zero on it. */
export function rangeBars(ranges: readonly Range[], label: string): RangeBars {
  const ends = ranges.flatMap(({ value, lo, hi }) => [value, lo, hi]).filter((end) => Number.isFinite(end));
  const low = Math.min(0, ...ends);
  const high = Math.max(0, ...ends);
  const span = high > low ? high - low : 1;
  const x = (value: number) => (EDGE + ((value - low) / span) * (WIDTH - 2 * EDGE)).toFixed(1);
  return {
    head: html`${label} <span class="axis">${signed(low, 0)} · 0 · ${signed(high, 0)}</span>`,
    draw(range) {
      if (!Number.isFinite(range.value)) return null;
      const middle = HEIGHT / 2;
      const bar = Number.isFinite(range.lo)
        ? html`<line x1="${x(range.lo)}" x2="${x(range.hi)}" y1="${middle}" y2="${middle}" class="bar"/>`
        : null;
      return html`<svg class="range" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-label="${rangeText(range)}"><line x1="${x(0)}" x2="${x(0)}" y1="0" y2="${HEIGHT}" class="zero"/>${bar}<circle cx="${x(range.value)}" cy="${middle}" r="3.2"/></svg>`;
    },
  };
}
