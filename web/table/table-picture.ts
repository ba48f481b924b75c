import { type Picture, standAlone, styledCopy, svgElement } from '../charts/export-chart.ts';

/** Between a cell's edge and what stands in it, px. */
const PAD_PX = 8;

/**
 * A table with its drawn cells as one drawing, as wide as its columns.
 * @param grid a table of which every row is on the page, wherever it lies
 */
export function tablePicture(grid: HTMLElement, rowPx: number): Picture {
  const [head, ...rows] = [...grid.querySelectorAll<HTMLElement>('[role=row]')];
  const headPx = head!.offsetHeight;
  const width = Math.max(...[...head!.children].map((cell) => placeOf(cell).x + placeOf(cell).width));
  const height = headPx + rows.length * rowPx;
  const svg = svgElement('svg', { viewBox: `0 0 ${width} ${height}` });
  const line = getComputedStyle(grid).borderTopColor;
  [head!, ...rows].forEach((row, at) => {
    const y = at === 0 ? 0 : headPx + (at - 1) * rowPx;
    const heightPx = at === 0 ? headPx : rowPx;
    for (const cell of row.children) svg.append(cellPicture(cell as HTMLElement, y, heightPx));
    svg.append(svgElement('line', { x1: 0, x2: width, y1: y + heightPx, y2: y + heightPx, stroke: line }));
  });
  return standAlone(svg, width, height);
}

const placeOf = (cell: Element) => ({ x: (cell as HTMLElement).offsetLeft, width: (cell as HTMLElement).offsetWidth });

/** What is too long for its cell is cut off at its edge. */
function cellPicture(cell: HTMLElement, y: number, height: number): SVGSVGElement {
  const { x, width } = placeOf(cell);
  const place = svgElement('svg', { x, y, width, height });
  const drawing = cell.querySelector('svg');
  if (drawing !== null) {
    const copy = styledCopy(drawing);
    const { height: drawnPx } = drawing.getBoundingClientRect();
    const box = { x: PAD_PX, y: (height - drawnPx) / 2, width: width - 2 * PAD_PX, height: drawnPx };
    for (const [name, value] of Object.entries(box)) copy.setAttribute(name, String(value));
    place.append(copy);
    return place;
  }
  const { color, fontFamily, fontSize, fontWeight } = getComputedStyle(cell);
  const atRight = getComputedStyle(cell).textAlign === 'right';
  const text = svgElement('text', {
    x: atRight ? width - PAD_PX : PAD_PX,
    y: height / 2,
    'dominant-baseline': 'central',
    'text-anchor': atRight ? 'end' : 'start',
    fill: color,
    'font-family': fontFamily,
    'font-size': fontSize,
    'font-weight': fontWeight,
  });
  text.textContent = cell.textContent.replace(/\s+/g, ' ').trim();
  place.append(text);
  return place;
}
