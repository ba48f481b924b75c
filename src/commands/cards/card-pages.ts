import PDFDocument from 'pdfkit';
import type { CardPlan } from '../../plans/card/card-words.ts';
import { layCard } from './lay-card.ts';
import { PAPER_SIZES, type Paper } from './papers.ts';
import { startTypeSetter } from './type-setter.ts';

export interface CardPagesOptions {
  readonly paper: Paper;
  /** Names by person id. */
  readonly names: ReadonlyMap<string, string>;
  /** For the size of the bags. */
  readonly season: number;
  readonly now: () => Date;
}

const COLUMNS = 2;
const MARGIN = 22;
/** Between a card's text and the line to cut along. */
const PADDING = 9;

/**
 * Pocket cards as the bytes of a PDF, two abreast and as many rows as a page holds, with lines to cut along. Black ink only. A
 * card is as high as its words want: nothing on it is ever left out to make it fit.
 */
export function cardPages(plans: readonly CardPlan[], options: CardPagesOptions): Promise<Buffer> {
  const [pageWidth, pageHeight] = PAPER_SIZES[options.paper];
  const document = new PDFDocument({
    size: [pageWidth, pageHeight],
    margin: 0,
    autoFirstPage: false,
    info: { Title: 'Pocket cards', Creator: 'Leatherbook', CreationDate: options.now() },
  });
  const bytes = collect(document);
  const setter = startTypeSetter(document);
  // A name in letters that cannot be printed gives way to the id.
  const names = new Map([...options.names].filter(([, name]) => setter.canSet(name)));
  const cellWidth = (pageWidth - 2 * MARGIN) / COLUMNS;
  let y = pageHeight;
  for (let at = 0; at < plans.length; at += COLUMNS) {
    const row = plans
      .slice(at, at + COLUMNS)
      .map((plan) => layCard(document, setter, plan, names, options.season, cellWidth - 2 * PADDING));
    const height = Math.max(...row.map((card) => card.height)) + 2 * PADDING;
    if (y + height > pageHeight - MARGIN) {
      document.addPage();
      y = MARGIN;
    }
    for (const [column, card] of row.entries()) {
      const x = MARGIN + column * cellWidth;
      document.rect(x, y, cellWidth, height).lineWidth(0.4).dash(2, { space: 3 }).stroke('#555').undash();
      document.fillColor('#000');
      card.draw(x + PADDING, y + PADDING);
    }
    y += height;
  }
  document.end();
  return bytes;
}

function collect(document: PDFKit.PDFDocument): Promise<Buffer> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    document.on('data', (chunk: Buffer) => chunks.push(chunk));
    document.on('end', () => resolve(Buffer.concat(chunks)));
    document.on('error', reject);
  });
}
