import type { MarkRow, Stairs, StepRow } from './stair-rows.ts';
import { textWidthPx, wrapText } from './wrap-text.ts';

export const TEXT_PX = 14;
const LINE_PX = 18;
const PAD_PX = 4;
const BAR_PX = 15;
const HEAD_PX = 20;
const INDENT_PX = 10;
/** Narrower a plot shows nothing. */
const LEAST_PLOT_PX = 20;
const GAP_PX = 12;
const WORD_GAP_PX = 7;
const TICK_ROOM_PX = 22;
/** Ticks' texts nearer to each other than this are left out. */
const TICK_APART_PX = 34;

interface TextLine {
  readonly text: string;
  readonly y: number;
}

interface LaidMark {
  readonly row: MarkRow;
  /** What stands beside the name, and what goes on below it. */
  readonly beside: string;
  readonly below: readonly TextLine[];
  readonly textY: number;
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly interval: { readonly x: number; readonly y: number; readonly width: number } | null;
  readonly beforeX: number | null;
}

interface LaidStep {
  readonly row: StepRow;
  readonly beside: string;
  readonly below: readonly TextLine[];
  readonly textY: number;
  readonly x: number;
  readonly width: number;
  readonly top: number;
  readonly height: number;
}

/** Everything in pixels. */
export interface StairLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly headY: number;
  readonly indentPx: number;
  readonly outsX: number;
  readonly runsX: number;
  readonly plotTop: number;
  readonly plotBottom: number;
  readonly tickY: number;
  readonly ticks: readonly { readonly x: number; readonly text: string; readonly shown: boolean }[];
  readonly marks: readonly LaidMark[];
  readonly steps: readonly LaidStep[];
  /** Upright lines that lead from the end of a step or mark to the next row. */
  readonly joints: readonly { readonly x: number; readonly top: number; readonly bottom: number }[];
}

/**
 * Places everything. Names stand in a column of their own, left of the plot, and the numbers in two right of it, so that no
 * word is ever over a line, however long a name or narrow the page.
 */
export function layStairs({ rows, low, high, ticks }: Stairs, widthPx: number): StairLayout {
  const numberPx = widthPx < 460 ? 50 : 62;
  const namePx = Math.round(Math.min(Math.max(widthPx * 0.38, 118), 270));
  const plotLeft = namePx + GAP_PX;
  // A page that is being laid out may be narrower than its words for a moment.
  const plotRight = Math.max(widthPx - 2 * numberPx - GAP_PX, plotLeft + LEAST_PLOT_PX);
  const xOf = (value: number) => tenth(plotLeft + ((value - low) / (high - low)) * (plotRight - plotLeft));
  const marks: LaidMark[] = [];
  const steps: LaidStep[] = [];
  const joints: StairLayout['joints'][number][] = [];
  let y = HEAD_PX + PAD_PX;
  /** Where the row before ends. */
  let end = { x: Number.NaN, y: 0 };
  for (const row of rows) {
    const isStep = row.type === 'step';
    const firstX = isStep
      ? INDENT_PX + textWidthPx(row.kind, TEXT_PX) + WORD_GAP_PX
      : textWidthPx(row.name, TEXT_PX * 1.08) + WORD_GAP_PX;
    const { beside, below, height } = linesAfter(
      isStep ? row.who : row.note,
      firstX,
      isStep ? INDENT_PX : 0,
      namePx,
      y,
    );
    const textY = y + PAD_PX + TEXT_PX;
    const x = xOf(isStep ? row.from : row.value);
    const top = isStep ? y + (height - BAR_PX) / 2 : y + 2;
    const bottom = isStep ? top + BAR_PX : y + height - 2;
    if (Math.abs(end.x - x) < 1) joints.push({ x, top: end.y, bottom: top });
    if (isStep) {
      const to = xOf(row.to);
      // A step too small to be seen is a line at least.
      const width = Math.max(tenth(Math.abs(to - x)), 1);
      steps.push({ row, beside, below, textY, x: Math.min(x, to), width, top, height: BAR_PX });
      end = { x: to, y: bottom };
    } else {
      const { interval, before } = row;
      marks.push({
        row,
        beside,
        below,
        textY,
        x,
        top,
        bottom,
        interval:
          interval === undefined
            ? null
            : { x: xOf(interval[0]), y: y + height / 2 - 3, width: tenth(xOf(interval[1]) - xOf(interval[0])) },
        beforeX: before === undefined ? null : xOf(before),
      });
      end = { x, y: bottom };
    }
    y += height;
  }
  let lastShown = Number.NEGATIVE_INFINITY;
  return {
    widthPx,
    heightPx: y + TICK_ROOM_PX,
    headY: TEXT_PX,
    indentPx: INDENT_PX,
    outsX: widthPx - numberPx,
    runsX: widthPx,
    plotTop: HEAD_PX + PAD_PX,
    plotBottom: y,
    tickY: y + TEXT_PX + 3,
    ticks: ticks.map(({ value, text }) => {
      const x = xOf(value);
      const shown = x - lastShown >= TICK_APART_PX;
      if (shown) lastShown = x;
      return { x, text, shown };
    }),
    marks,
    steps,
    joints,
  };
}

/** A text that begins beside another one and goes on below it, and the height that it takes. */
function linesAfter(text: string, firstX: number, restX: number, widthPx: number, y: number) {
  const [beside = '', ...rest] = wrapText(text, widthPx - restX, TEXT_PX, firstX - restX);
  const below = rest.map((line, k) => ({ text: line, y: y + PAD_PX + TEXT_PX + (k + 1) * LINE_PX }));
  return { beside, below, height: (1 + rest.length) * LINE_PX + 2 * PAD_PX };
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
