import type { Row } from '../state/table/row-source.ts';
import type { Word } from '../words/words.ts';

/** How a table shows one column of its rows. */
export interface TableColumn {
  /** The column's name in the rows; sorting and copying go by it. */
  readonly key: string;
  readonly label: string;
  /** The word whose sentence explains the column. */
  readonly word?: Word;
  /** Least width, px; what is left over is shared in proportion. */
  readonly widthPx: number;
  /** Numbers stand right, words left. */
  readonly isNumber?: boolean;
  /** What the cell says; a drawn cell says it to those who do not see it. */
  readonly text: (row: Row) => string;
  /** Class that colours the text, such as the kind of entry. */
  readonly tone?: string;
  /** The same, where it is a matter of the row. */
  readonly toneOf?: (row: Row) => string;
  readonly isStrong?: boolean;
  /** Where the cell leads. */
  readonly href?: (row: Row) => string | null;
  /** What pressing the cell does, where it leads nowhere. */
  readonly onPress?: (row: Row) => void;
  readonly canSort?: boolean;
  /** Columns of the rows that are copied for this one; the column itself unless given. */
  readonly copies?: readonly string[];
}

export const copiedColumns = (columns: readonly TableColumn[]): string[] => [
  ...new Set(columns.flatMap(({ key, copies }) => copies ?? [key])),
];
