/** Mean width of a character of the page's face at one pixel of size; wide enough that few lines are longer. */
const CHARACTER_EM = 0.54;

export function textWidthPx(text: string, sizePx: number): number {
  return text.length * CHARACTER_EM * sizePx;
}

/**
 * Breaks a text into lines that fit, between words where it can, within a word that is longer than a line. The first line
 * has `indentPx` less room; it is empty when not even the first word fits there.
 */
export function wrapText(text: string, widthPx: number, sizePx: number, indentPx = 0): string[] {
  const lines: string[] = [];
  let line = '';
  const room = () => Math.max(1, Math.floor((widthPx - (lines.length === 0 ? indentPx : 0)) / (CHARACTER_EM * sizePx)));
  for (const word of text.split(' ').filter((each) => each !== '')) {
    const candidate = line === '' ? word : `${line} ${word}`;
    if (candidate.length <= room()) {
      line = candidate;
      continue;
    }
    if (line !== '' || lines.length === 0) lines.push(line);
    line = word;
    while (line.length > room()) {
      const most = room();
      lines.push(line.slice(0, most));
      line = line.slice(most);
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}
