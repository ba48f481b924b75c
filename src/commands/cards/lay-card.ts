import svgToPdf from 'svg-to-pdfkit';
import { basesOf, type CardPlan, cardWords, drawnStarts } from '../../plans/card/card-words.ts';
import { drawPlan } from '../../plans/card/plan-drawing.ts';
import { PLAIN_BOLD, type Weight } from './card-fonts.ts';
import { LEADING, type TypeSetter } from './type-setter.ts';

export interface LaidCard {
  /** Points. */
  readonly height: number;
  draw(x: number, y: number): void;
}

interface Line {
  readonly text: string;
  readonly size: number;
  readonly weight: Weight;
  /** Added above the line. */
  readonly space: number;
  /** From the left edge of its block. */
  readonly indent: number;
}

const DRAWING = { width: 144, height: 128 };
const GUTTER = 7;
const DISC = 4.6;
const NAME_INDENT = 2 * DISC + 3;

/** Lays one card of a given width out, the field and its worth on the left, the men on the right; nothing is drawn until it is told where. */
export function layCard(
  document: PDFKit.PDFDocument,
  setter: TypeSetter,
  plan: CardPlan,
  names: ReadonlyMap<string, string>,
  season: number,
  width: number,
): LaidCard {
  const words = cardWords(plan, names);
  const lay = (text: string, size: number, weight: Weight, space: number, within: number, indent = 0): Line[] =>
    setter
      .wrap(text, size, weight, within - indent)
      .map((line, at) => ({ text: line, size, weight, space: at === 0 ? space : 0, indent }));

  const head = [
    ...lay(words.title, 13, 'bold', 0, width),
    ...lay(words.situation, 9.5, 'bold', 1, width),
    ...lay(words.rule, 8, 'regular', 0, width),
  ];
  const column = width - DRAWING.width - GUTTER;
  const men = words.men.map(({ position, name, fromEven, fromBag }) => ({
    position,
    lines: [
      ...lay(name, 8, 'bold', 3, column, NAME_INDENT),
      ...lay(fromEven, 7.8, 'regular', 0, column),
      ...lay(fromBag, 7, 'regular', 0, column),
    ],
  }));
  const foot = [
    ...lay(words.gain, 8, 'bold', 0, DRAWING.width),
    ...lay(
      `${words.evidence}. Disc: plan; ring: even spot; deep: behind the base path; a long pace is 3 ft.`,
      7,
      'regular',
      1,
      DRAWING.width,
    ),
    ...words.warnings.flatMap((warning) => lay(`! ${warning}`, 7.5, 'bold', 2, DRAWING.width)),
  ];
  const menHeight = heightOf(men.flatMap(({ lines }) => lines));
  const bodyTop = heightOf(head) + 3;

  return {
    height: bodyTop + Math.max(DRAWING.height + heightOf(foot), menHeight),
    draw(x, y) {
      drawLines(setter, head, x, y);
      const svg = drawPlan({
        starts: drawnStarts(plan),
        runners: basesOf(plan.runners),
        season,
        width: DRAWING.width,
        height: DRAWING.height,
      });
      svgToPdf(document, svg, x, y + bodyTop, { ...DRAWING, fontCallback: () => PLAIN_BOLD });
      let menY = y + bodyTop;
      const menX = x + DRAWING.width + GUTTER;
      for (const { position, lines } of men) {
        drawNumber(document, setter, position, menX + DISC, menY + lines[0]!.space + (lines[0]!.size * LEADING) / 2);
        menY = drawLines(setter, lines, menX, menY);
      }
      drawLines(setter, foot, x, y + bodyTop + DRAWING.height);
    },
  };
}

function heightOf(lines: readonly Line[]): number {
  return lines.reduce((sum, { size, space }) => sum + space + size * LEADING, 0);
}

/** Returns the y below the last line. */
function drawLines(setter: TypeSetter, lines: readonly Line[], x: number, y: number): number {
  let at = y;
  for (const { text, size, weight, space, indent } of lines) {
    at += space;
    setter.drawLine(text, x + indent, at, size, weight);
    at += size * LEADING;
  }
  return at;
}

/** The man's disc as on the field, beside his name. */
function drawNumber(document: PDFKit.PDFDocument, setter: TypeSetter, position: number, x: number, y: number): void {
  const text = String(position);
  const size = 7;
  document.circle(x, y, DISC).fill('#000');
  document.fillColor('#fff');
  setter.drawLine(text, x - setter.widthOf(text, size, 'bold') / 2, y - size * 0.62, size, 'bold');
  document.fillColor('#000');
}
