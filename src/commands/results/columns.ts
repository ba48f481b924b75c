import type { Column, ColumnTable } from '../../book/store.ts';

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
    this.columns.push({ name, type: 'integer', values: Int32Array.from(this.rows, value) });
    return this;
  }

  integerOrEmpty(name: string, value: (row: Row) => number | null): this {
    this.columns.push({
      name,
      type: 'integer',
      values: Float64Array.from(this.rows, (row) => value(row) ?? Number.NaN),
    });
    return this;
  }

  number(name: string, value: (row: Row) => number): this {
    this.columns.push({ name, type: 'double', values: Float64Array.from(this.rows, value) });
    return this;
  }

  table(): ColumnTable {
    return { rowCount: this.rows.length, columns: this.columns };
  }
}
