import { basesOf, type CardPlan, cardWords, drawnStarts } from './card-words.ts';
import { BREAKS } from './line-breaks.ts';
import { drawPlan, escapeXml } from './plan-drawing.ts';

const WIDTH = 420;
const MARGIN = 18;
const FIELD = { width: WIDTH - 2 * MARGIN, height: 300 };
/** Letters that fit a line at size 1, bold ones fewer: the picture cannot measure its reader's font, so these are on the safe side. */
const LETTERS = { 400: 680, 700: 580 } as const;

/** A pocket card as one SVG picture, for a screen or to print by itself; `season` is for the size of the bags. */
export function cardSvg(plan: CardPlan, names: ReadonlyMap<string, string>, season: number): string {
  const words = cardWords(plan, names);
  const lines: string[] = [];
  let y = MARGIN;
  const write = (text: string, size: number, weight: 400 | 700, indent = 0) => {
    for (const line of wrap(text, Math.floor(LETTERS[weight] / size))) {
      y += size * 1.3;
      lines.push(
        `<text x="${MARGIN + indent}" y="${y.toFixed(1)}" font-size="${size}" font-weight="${weight}">${escapeXml(line)}</text>`,
      );
    }
  };
  write(words.title, 18, 700);
  write(words.situation, 13, 700);
  write(words.rule, 11, 400);
  const { width, height } = FIELD;
  const field = drawPlan(
    { starts: drawnStarts(plan), runners: basesOf(plan.runners), season, width: width / 2, height: height / 2 },
    `x="${MARGIN}" y="${(y + 8).toFixed(1)}" width="${width}" height="${height}"`,
  );
  y += height + 12;
  for (const { position, name, fromEven, fromBag } of words.men) {
    write(`${position}  ${name}`, 12, 700);
    write(`${fromEven}; ${fromBag}`, 11, 400, 14);
  }
  y += 4;
  write(words.gain, 11, 700);
  write(`${words.evidence}. Disc: plan; ring: even spot; deep: behind the base path.`, 11, 400);
  for (const warning of words.warnings) write(`! ${warning}`, 11, 700);
  y += MARGIN;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${y.toFixed(0)}" width="${WIDTH}" height="${y.toFixed(0)}" font-family="'Source Serif 4', Georgia, serif" fill="#000">`,
    `<rect width="${WIDTH}" height="${y.toFixed(0)}" fill="#fff"/>`,
    ...lines,
    field,
    '</svg>',
    '',
  ].join('\n');
}

function wrap(text: string, most: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const piece of text.split(BREAKS)) {
    if ((line + piece).trimEnd().length > most && line !== '') {
      lines.push(line.trimEnd());
      line = '';
    }
    line += piece;
    for (; line.trimEnd().length > most; line = line.slice(most)) lines.push(line.slice(0, most));
  }
  return [...lines, line.trimEnd()];
}
