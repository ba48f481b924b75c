import type { Column, ColumnTable } from '../../book/store.ts';

/** The cells of a text column, by row. */
export function textColumn(count: number, cell: (row: number) => string | null): (string | null)[] {
  const cells = new Array<string | null>(count);
  for (let row = 0; row < count; row += 1) cells[row] = cell(row);
  return cells;
}

/** Short ways to write a table's columns from rows. */
export class TableWriter<Row> {
  private readonly rows: readonly Row[];
  private readonly columns: Column[] = [];

  constructor(rows: readonly Row[]) {
    this.rows = rows;
  }

  text(name: string, value: (row: Row) => string | null): this {
    this.columns.push({ name, type: 'text', values: this.rows.map(value) });
    return this;
  }

  integer(name: string, value: (row: Row) => number): this {
    const values = new Int32Array(this.rows.length);
    for (let r = 0; r < values.length; r += 1) values[r] = value(this.rows[r]);
    this.columns.push({ name, type: 'integer', values });
    return this;
  }

  integerOrEmpty(name: string, value: (row: Row) => number | null): this {
    this.columns.push({ name, type: 'integer', values: this.doubles((row) => value(row) ?? Number.NaN) });
    return this;
  }

  number(name: string, value: (row: Row) => number): this {
    this.columns.push({ name, type: 'double', values: this.doubles(value) });
    return this;
  }

  private doubles(value: (row: Row) => number): Float64Array {
    const values = new Float64Array(this.rows.length);
    for (let r = 0; r < values.length; r += 1) values[r] = value(this.rows[r]);
    return values;
  }

  table(): ColumnTable {
    return { rowCount: this.rows.length, columns: this.columns };
  }
}
