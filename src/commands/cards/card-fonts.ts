import { createRequire } from 'node:module';

/**
 * The letters of the cards. The family comes in one file a script, so that a line of text is set in runs, each from the first
 * file that has its letters: names are not all written in one alphabet.
 */
const SCRIPTS = ['latin', 'latin-ext', 'cyrillic', 'cyrillic-ext', 'greek', 'vietnamese'] as const;
const WEIGHTS = { regular: 400, bold: 700 } as const;
export type Weight = keyof typeof WEIGHTS;

/** Stands for a letter that no file has. */
export const UNKNOWN_LETTER = '?';

/** A stretch of text in one font, by the name under which it is registered. */
export interface Run {
  readonly font: string;
  readonly text: string;
}

export interface CardFonts {
  /** All files: the name to register and the path. */
  readonly files: readonly { readonly name: string; readonly path: string }[];
  /** Splits a line into runs. */
  runsOf(text: string, weight: Weight, hasLetter: (font: string, codePoint: number) => boolean): Run[];
}

const nameOf = (script: string, weight: Weight) => `${script}-${weight}`;

/** The font for what needs no more than digits and English. */
export const PLAIN_BOLD = nameOf('latin', 'bold');

export function cardFonts(): CardFonts {
  const { resolve } = createRequire(import.meta.url);
  const files = (Object.keys(WEIGHTS) as Weight[]).flatMap((weight) =>
    SCRIPTS.map((script) => ({
      name: nameOf(script, weight),
      path: resolve(`@fontsource/source-serif-4/files/source-serif-4-${script}-${WEIGHTS[weight]}-normal.woff`),
    })),
  );
  return {
    files,
    runsOf(text, weight, hasLetter) {
      const runs: { font: string; text: string }[] = [];
      // Composed letters: a file has e with an acute accent, and rarely the accent by itself.
      for (const letter of text.normalize('NFC').replace(/\p{Cc}/gu, ' ')) {
        const script = SCRIPTS.find((each) => hasLetter(nameOf(each, weight), letter.codePointAt(0)!));
        const font = nameOf(script ?? SCRIPTS[0], weight);
        const known = script === undefined ? UNKNOWN_LETTER : letter;
        const last = runs.at(-1);
        if (last?.font === font) last.text += known;
        else runs.push({ font, text: known });
      }
      return runs;
    },
  };
}
