/** A cell of a table: row -1 is the header, columns count from 0. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  readonly rowCount: number;
  readonly columnCount: number;
  /** Rows that are seen at once. */
  readonly pageRows: number;
}

/** Where a key moves the focus from `place`; null when it moves nothing. `isFar`: with the control or command key. */
export function movedBy(key: string, isFar: boolean, place: CellPlace, size: GridSize): CellPlace | null {
  const { rowCount, columnCount, pageRows } = size;
  const to = (row: number, column: number): CellPlace => ({
    row: Math.max(-1, Math.min(rowCount - 1, row)),
    column: Math.max(0, Math.min(columnCount - 1, column)),
  });
  const { row, column } = place;
  switch (key) {
    case 'ArrowUp':
      return isFar ? to(-1, column) : to(row - 1, column);
    case 'ArrowDown':
      return isFar ? to(rowCount - 1, column) : to(row + 1, column);
    case 'ArrowLeft':
      return isFar ? to(row, 0) : to(row, column - 1);
    case 'ArrowRight':
      return isFar ? to(row, columnCount - 1) : to(row, column + 1);
    case 'Home':
      return isFar ? to(0, 0) : to(row, 0);
    case 'End':
      return isFar ? to(rowCount - 1, columnCount - 1) : to(row, columnCount - 1);
    case 'PageUp':
      return to(Math.max(0, row - pageRows), column);
    case 'PageDown':
      return to(row + pageRows, column);
    default:
      return null;
  }
}

/** Cells from one corner to the other, both included. */
export interface CellRange {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

export function rangeBetween(a: CellPlace, b: CellPlace): CellRange {
  return {
    firstRow: Math.max(0, Math.min(a.row, b.row)),
    lastRow: Math.max(a.row, b.row),
    firstColumn: Math.min(a.column, b.column),
    lastColumn: Math.max(a.column, b.column),
  };
}

export function isInRange(range: CellRange | null, row: number, column: number): boolean {
  if (range === null) return false;
  const { firstRow, lastRow, firstColumn, lastColumn } = range;
  return row >= firstRow && row <= lastRow && column >= firstColumn && column <= lastColumn;
}
