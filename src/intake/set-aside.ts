import { quoteText } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { describeLoadFault, describeRowFault, type Reason } from './faults.ts';
import { readRecords } from './source-records.ts';
import { countRows, REPEATED, type StagedFile, verdicts } from './stage.ts';

/** What became of the rows of one file; `read` is always `loaded` + `setAside`. */
export interface FileCount {
  readonly file: string;
  readonly table: string;
  readonly read: number;
  /** Rows that the book now has, `repeated` among them. */
  readonly loaded: number;
  /** Rows that it had already, or that stand in the load twice, alike in every column. */
  readonly repeated: number;
  readonly setAside: number;
}

const BATCH_ROWS = 2000;
const BATCH_CHARACTERS = 4_000_000;
/** Stands for the reason of a row that was set aside by an earlier intake and is loaded now. */
const NOW_LOADED = '';

class AsideWriter {
  readonly #store: Store;
  readonly #file: string;
  readonly #table: string;
  readonly #tell: (reason: Reason) => void;
  #line: number[] = [];
  #column: string[] = [];
  #reason: string[] = [];
  #text: string[] = [];
  #characters = 0;

  constructor(store: Store, file: string, table: string, tell: (reason: Reason) => void) {
    this.#store = store;
    this.#file = file;
    this.#table = table;
    this.#tell = tell;
  }

  add(line: number, reason: Reason, text: string): void {
    if (reason.reason !== NOW_LOADED) this.#tell(reason);
    this.#line.push(line);
    this.#column.push(reason.column);
    this.#reason.push(reason.reason);
    this.#text.push(text);
    this.#characters += text.length;
  }

  async flush(whole: boolean): Promise<void> {
    const rowCount = this.#line.length;
    if (rowCount === 0 || (!whole && rowCount < BATCH_ROWS && this.#characters < BATCH_CHARACTERS)) return;
    await this.#store.append(ASIDE, {
      rowCount,
      columns: [
        { name: 'file', type: 'text', values: new Array<string>(rowCount).fill(this.#file) },
        { name: 'table', type: 'text', values: new Array<string>(rowCount).fill(this.#table) },
        { name: 'line', type: 'integer', values: Int32Array.from(this.#line) },
        { name: 'column', type: 'text', values: this.#column },
        { name: 'reason', type: 'text', values: this.#reason },
        { name: 'text', type: 'text', values: this.#text },
      ],
    });
    this.#line = [];
    this.#column = [];
    this.#reason = [];
    this.#text = [];
    this.#characters = 0;
  }
}

/** Where the rows set aside by this intake are gathered, with the lines of those that are loaded now. */
const ASIDE = 'aside';

export async function createAside(store: Store): Promise<void> {
  await store.run(`CREATE OR REPLACE TEMP TABLE ${ASIDE}
    (file VARCHAR, line INTEGER, "table" VARCHAR, "column" VARCHAR, reason VARCHAR, text VARCHAR)`);
}

export async function dropAside(store: Store): Promise<void> {
  await store.run(`DROP TABLE IF EXISTS ${ASIDE}`);
}

/**
 * Puts what was gathered in the book, in the place of what an earlier intake of the same lines left; once an intake, within
 * its transaction.
 */
export async function keepAside(store: Store): Promise<void> {
  const sameLine = 'n.file = p.file AND n."table" = p."table" AND n.line = p.line AND n.text = p.text';
  const same = `${sameLine} AND n."column" = p."column" AND n.reason = p.reason`;
  const absent = `FROM ${ASIDE} n WHERE reason <> '${NOW_LOADED}' AND NOT EXISTS (SELECT 1 FROM set_aside p WHERE ${same})`;
  await store.run(`DELETE FROM set_aside p WHERE EXISTS (SELECT 1 FROM ${ASIDE} n WHERE ${sameLine})
      AND NOT EXISTS (SELECT 1 FROM ${ASIDE} n WHERE ${same})`);
  await store.run(`INSERT INTO set_aside (file, line, "table", "column", reason, text)
    SELECT file, line, "table", "column", reason, text ${absent} ORDER BY rowid`);
  const lost = await countRows(store, `(SELECT 1 ${absent})`);
  if (lost > 0) throw new Error(`${lost} rows that were set aside did not come into the book`);
}

/**
 * Gathers the rows of one file that were set aside (for `keepAside`), each with line, column, reason and its whole source text, and counts
 * what became of the others. Call within the transaction that loads them.
 * @param tell hears every reason, for a summary
 */
export async function gatherAside(
  store: Store,
  file: StagedFile,
  placeOf: (rowNo: number) => string,
  tell: (reason: Reason) => void,
): Promise<FileCount> {
  const { section, source, first, rows, nothing, broken } = file;
  const verdict = verdicts(section.table);
  const range = `row_no >= ${first} AND row_no < ${first + rows}`;
  const [counted] = await store.rows(`SELECT count(*) FILTER (fault = '${REPEATED}')::INTEGER AS repeated,
    count(*)::INTEGER AS judged FROM ${verdict} WHERE ${range}`);
  const aside = await store.query(`SELECT (row_no - ${first})::DOUBLE AS row_no, fault FROM ${verdict}
    WHERE ${range} AND fault NOT IN ('${REPEATED}', 'nothing') ORDER BY row_no`);
  const numbers = aside.columns[0]!.values as Float64Array;
  const faults = aside.columns[1]!.values as readonly string[];
  const earlier = await store.query(`SELECT DISTINCT line FROM set_aside
    WHERE file = ${quoteText(source.shown)} AND "table" = '${section.table}'`);
  const lines = new Set(earlier.columns[0]!.values as Int32Array);
  const width = section.rows.length;
  if (aside.rowCount > 0 || broken.length > 0 || lines.size > 0) {
    const writer = new AsideWriter(store, source.shown, section.table, tell);
    for (const { line, reason, text } of broken) writer.add(line, { column: '', reason }, text);
    const indices = [...new Set(Array.from(numbers, (row) => Math.floor(row / width)))];
    let at = 0;
    const take = (index: number, line: number, text: string) => {
      let any = false;
      for (; at < numbers.length && Math.floor(numbers[at]! / width) === index; at++) {
        const fault = faults[at]!;
        writer.add(
          line,
          describeLoadFault(fault, placeOf) ?? describeRowFault(section, numbers[at]! % width, fault),
          text,
        );
        any = true;
      }
      if (!any) writer.add(line, { column: '', reason: NOW_LOADED }, text);
    };
    if (indices.length > 0 || lines.size > 0) {
      await readRecords(store, file, { indices, lines }, take, () => writer.flush(false));
    }
    await writer.flush(true);
  }
  const repeated = Number(counted!.repeated);
  const added = rows - Number(counted!.judged);
  const setAside = aside.rowCount + broken.length;
  const read = rows - nothing + broken.length;
  const loaded = added + repeated;
  if (read !== loaded + setAside) {
    throw new Error(`${source.shown}: ${read} rows read, ${loaded} loaded and ${setAside} set aside do not add up`);
  }
  return { file: source.shown, table: section.table, read, loaded, repeated, setAside };
}
