/** Text that is HTML already; anything else is escaped where it is put in. */
export class Html {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

export type Part = Html | string | number | null | readonly Part[];

/** HTML with parts put in: `html\`<b>${name}</b>\``. A null leaves nothing. */
export function html(pieces: TemplateStringsArray, ...parts: readonly Part[]): Html {
  return new Html(pieces.map((piece, at) => (at === 0 ? '' : textOf(parts[at - 1]!)) + piece).join(''));
}

function textOf(part: Part): string {
  if (part === null) return '';
  if (part instanceof Html) return part.text;
  if (typeof part === 'object') return part.map(textOf).join('');
  // Control characters of somebody's data are of no use to a reader.
  return String(part)
    .replace(/[^\P{Cc}\n]/gu, '·')
    .replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
