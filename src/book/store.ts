/** Kinds of column that the project uses; every other kind of the engine is turned into one of these on reading. */
export type ColumnType = 'text' | 'integer' | 'double' | 'boolean' | 'date';

/**
 * The values of one column.
 * - text and date: strings (a date as `YYYY-MM-DD`), null for an empty cell;
 * - integer: Int32Array; a column that has empty cells is a Float64Array with NaN in them, both ways;
 * - double: Float64Array, NaN for an empty cell, both ways;
 * - boolean: Uint8Array of 0 and 1, EMPTY_BOOLEAN for an empty cell, both ways.
 */
export type ColumnValues = readonly (string | null)[] | Int32Array | Uint8Array | Float64Array;

/** Stands for an empty cell in a boolean column. */
export const EMPTY_BOOLEAN = 255;

export interface Column {
  readonly name: string;
  readonly type: ColumnType;
  readonly values: ColumnValues;
}

/** A table by columns, each of `rowCount` values. */
export interface ColumnTable {
  readonly rowCount: number;
  readonly columns: readonly Column[];
}

/** One cell of a small result. */
export type Cell = string | number | boolean | null;

/**
 * The whole of what the project asks of a database. Calls are served one after the other; those made while a
 * transaction is open belong to it.
 */
export interface Store {
  /** Runs one or more statements; returns the rows changed by the last one. */
  run(sql: string): Promise<number>;
  /** Reads a result by columns. 64-bit integers and decimals come as doubles. */
  query(sql: string): Promise<ColumnTable>;
  /** Reads a small result by rows; not for more than a few thousand of them. */
  rows(sql: string): Promise<Record<string, Cell>[]>;
  /** Bulk write at the end of a table. Columns are matched by name; a column not given is left empty. */
  append(table: string, data: ColumnTable): Promise<void>;
  /** All or nothing: what `body` wrote is kept if it returns and undone if it throws. Does not nest. */
  transaction<T>(body: () => Promise<T>): Promise<T>;
  close(): Promise<void>;
}
