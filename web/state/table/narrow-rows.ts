import type { Row } from './row-source.ts';

/**
 * The rows whose cells have every word of `text` in them, whatever the case; a minus may be typed as a hyphen.
 * @param cells what a row says to its reader, cell by cell
 */
export function narrowRows(rows: readonly Row[], text: string, cells: (row: Row) => readonly string[]): readonly Row[] {
  const words = plain(text).split(/\s+/).filter(Boolean);
  if (words.length === 0) return rows;
  return rows.filter((row) => {
    const said = cells(row).map(plain);
    return words.every((word) => said.some((cell) => cell.includes(word)));
  });
}

const plain = (text: string): string => text.toLowerCase().replaceAll('\u2212', '-');
