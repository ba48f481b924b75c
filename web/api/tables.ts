import type { TableAnswer } from '../../src/server/answers.ts';
import { addressOf, type Filters } from '../state/address.ts';
import { RemoteRows, rowsOf } from '../state/table/remote-rows.ts';
import { type Row, type Sort, sortWord } from '../state/table/row-source.ts';
import { askServer, askServerForText } from './ask-server.ts';

const ALL_ROWS = 100_000;

/** All rows of a table of the book that match, for tables of some thousand rows at most. */
export async function readTable(name: string, filters: Filters = {}): Promise<Row[]> {
  const answer = await askServer<TableAnswer>(addressOf(['api', 'table', name], { ...filters, count: ALL_ROWS }));
  return rowsOf(answer);
}

/** The rows of a table of the book piece by piece, however long it is. */
export function remoteTable(name: string, filters: Filters, sort: Sort | null): RemoteRows {
  const words: Record<string, string> = {};
  for (const [word, value] of Object.entries(filters))
    if (value !== undefined && value !== '') words[word] = String(value);
  if (sort !== null) words.sort = sortWord(sort);
  return new RemoteRows(
    { name, words },
    { askTable: (address, signal) => askServer(address, { signal }), askText: (address) => askServerForText(address) },
  );
}
