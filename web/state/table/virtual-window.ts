/** Browsers draw nothing below some tens of millions of pixels; a longer table is scrolled faster than it moves. */
const MOST_HEIGHT_PX = 8_000_000;
/** Rows beyond the edges that are drawn too, so that a small step shows nothing blank. */
const MARGIN_ROWS = 4;

/** Which rows of a long table are drawn, and where. */
export interface VirtualWindow {
  /** Height of what is scrolled, px. */
  readonly heightPx: number;
  /** First row drawn, and the one after the last. */
  readonly first: number;
  readonly end: number;
  /** Top of the first row drawn within what is scrolled, px. */
  readonly topPx: number;
}

interface Measures {
  readonly rowCount: number;
  readonly rowPx: number;
  /** Height of the part that is seen, px. */
  readonly viewPx: number;
}

/** The height of what is scrolled, px: that of all rows, or less when no browser could draw so much. */
export function scrolledHeight({ rowCount, rowPx }: Measures): number {
  return Math.min(rowCount * rowPx, MOST_HEIGHT_PX);
}

/** The window at `scrollPx` from the top. At the bottom of the bar the last row ends at the lower edge, however long the table. */
export function windowAt(measures: Measures, scrollPx: number): VirtualWindow {
  const { rowCount, rowPx, viewPx } = measures;
  const heightPx = scrolledHeight(measures);
  const rowsTopPx = scrollPx * stretch(measures);
  const first = Math.max(0, Math.min(rowCount, Math.floor(rowsTopPx / rowPx)) - MARGIN_ROWS);
  const end = Math.min(rowCount, Math.ceil((rowsTopPx + viewPx) / rowPx) + MARGIN_ROWS);
  return { heightPx, first, end, topPx: first * rowPx - rowsTopPx + scrollPx };
}

/** How far to scroll, px, so that `row` is wholly seen; as little as that takes. */
export function scrollToRow(measures: Measures, row: number, scrollPx: number): number {
  const { rowPx, viewPx } = measures;
  const factor = stretch(measures);
  const rowsTopPx = scrollPx * factor;
  const topPx = row * rowPx;
  if (topPx < rowsTopPx) return topPx / factor;
  if (topPx + rowPx > rowsTopPx + viewPx) return (topPx + rowPx - viewPx) / factor;
  return scrollPx;
}

/** Pixels of rows that go by for each pixel scrolled. */
function stretch(measures: Measures): number {
  const { rowCount, rowPx, viewPx } = measures;
  const free = scrolledHeight(measures) - viewPx;
  return free <= 0 ? 1 : (rowCount * rowPx - viewPx) / free;
}
