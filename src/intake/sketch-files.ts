import { IN_MEMORY, openDuckDbStore } from '../book/duckdb-store.ts';
import { quoteName, quoteText } from '../book/sql-text.ts';
import { inspectSource } from './inspect-source.ts';
import { profileColumns } from './profile-columns.ts';
import type { SketchFile } from './sketch-mapping.ts';
import { escapeGlob } from './source-sql.ts';
import { columnsOf } from './stage-file.ts';

const PARQUET_ROWS = 1000;

async function parquetFile(file: string, shown: string): Promise<SketchFile> {
  const store = await openDuckDbStore(IN_MEMORY);
  try {
    const names = await columnsOf(store, { format: 'parquet', file, shown, decimal: '.', empty: [] });
    const cells = names.map((name) => `${quoteName(name)}::VARCHAR`).join(', ');
    const head = await store.query(
      `SELECT ${cells} FROM read_parquet(${quoteText(escapeGlob(file))}) LIMIT ${PARQUET_ROWS}`,
    );
    const texts = head.columns.map(({ values }) => values as readonly (string | null)[]);
    const sample = Array.from({ length: head.rowCount }, (_, row) => texts.map((column) => column[row] ?? ''));
    return { path: shown, columns: profileColumns(names, sample, '.') };
  } finally {
    await store.close();
  }
}

/** Looks at the first rows of a file, for `sketchMapping`. */
export async function lookAtFile(file: string): Promise<SketchFile> {
  const source = await inspectSource(file, file, {});
  if (source.format === 'parquet') return parquetFile(file, file);
  return { path: file, columns: profileColumns(source.columns, source.sample, source.decimal) };
}
