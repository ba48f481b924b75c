import type { Column, ColumnTable, ColumnValues } from '../../book/store.ts';
import type { ClassLedger } from '../../ledger/class-ledger.ts';

/** One table of the rows of every class, in the order of the ledgers; all parts have the same columns. */
export function joinColumns(ledgers: readonly ClassLedger[], part: (ledger: ClassLedger) => ColumnTable): ColumnTable {
  const parts = ledgers.map(part);
  if (parts.length === 1) return parts[0];
  return {
    rowCount: parts.reduce((sum, { rowCount }) => sum + rowCount, 0),
    columns: parts[0].columns.map(({ name, type }, c): Column => {
      const values = parts.map(({ columns }) => columns[c].values);
      return { name, type, values: joinValues(values) };
    }),
  };
}

function joinValues(parts: readonly ColumnValues[]): ColumnValues {
  const count = parts.reduce((sum, part) => sum + part.length, 0);
  const [first] = parts;
  if (first instanceof Float64Array) return fill(new Float64Array(count), parts as readonly Float64Array[]);
  if (first instanceof Int32Array) return fill(new Int32Array(count), parts as readonly Int32Array[]);
  const [head, ...rest] = parts as readonly (readonly (string | null)[])[];
  return head.concat(...rest);
}

function fill<T extends Float64Array | Int32Array>(out: T, parts: readonly T[]): T {
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
