import { BREAKS } from '../../plans/card/line-breaks.ts';
import { cardFonts, type Run, type Weight } from './card-fonts.ts';

type Document = PDFKit.PDFDocument;

/** Sets lines of any alphabet on the pages of a document; sizes and places in points, y downward to the top of the line. */
export interface TypeSetter {
  widthOf(text: string, size: number, weight: Weight): number;
  /** Splits a text into lines of at most `width`: between words, after a hyphen, and inside a word only when it is wider by itself. */
  wrap(text: string, size: number, weight: Weight, width: number): string[];
  drawLine(text: string, x: number, y: number, size: number, weight: Weight): void;
  /** Whether there is a letter for each character. */
  canSet(text: string): boolean;
}

/** Line height by font size. */
export const LEADING = 1.2;

interface FontFile {
  hasGlyphForCodePoint(codePoint: number): boolean;
}

export function startTypeSetter(document: Document): TypeSetter {
  const { files, runsOf } = cardFonts();
  for (const { name, path } of files) document.registerFont(name, path);
  const known = new Map<string, boolean>();
  const hasLetter = (font: string, codePoint: number): boolean => {
    const key = `${font} ${codePoint}`;
    let has = known.get(key);
    if (has === undefined) {
      document.font(font);
      // The library keeps the font file here and offers no other way to ask it.
      has = (document as unknown as { _font: { font: FontFile } })._font.font.hasGlyphForCodePoint(codePoint);
      known.set(key, has);
    }
    return has;
  };
  const runs = (text: string, weight: Weight): Run[] => runsOf(text, weight, hasLetter);
  const widthOf = (text: string, size: number, weight: Weight) =>
    runs(text, weight).reduce((sum, run) => sum + document.font(run.font).fontSize(size).widthOfString(run.text), 0);

  const wrap = (text: string, size: number, weight: Weight, width: number) => {
    const lines: string[] = [];
    let line = '';
    const fits = (candidate: string) => widthOf(candidate.trimEnd(), size, weight) <= width;
    const end = () => {
      if (line.trimEnd() !== '') lines.push(line.trimEnd());
      line = '';
    };
    for (const piece of text.split(BREAKS)) {
      if (!fits(line + piece)) end();
      for (const letter of fits(piece) ? [piece] : piece) {
        if (!fits(line + letter)) end();
        line += letter;
      }
    }
    end();
    return lines;
  };

  return {
    widthOf,
    wrap,
    drawLine(text, x, y, size, weight) {
      let at = x;
      for (const run of runs(text, weight)) {
        document.font(run.font).fontSize(size).text(run.text, at, y, { lineBreak: false });
        at += document.widthOfString(run.text);
      }
    },
    canSet: (text) =>
      [...text.normalize('NFC')].every((letter) =>
        files.some(({ name }) => name.endsWith('-regular') && hasLetter(name, letter.codePointAt(0)!)),
      ),
  };
}
