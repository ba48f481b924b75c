import {
  type DuckDBAppender,
  type DuckDBConnection,
  DuckDBDataChunk,
  DuckDBDecimalValue,
  DuckDBInstance,
  type DuckDBResult,
  DuckDBTypeId,
  type DuckDBValue,
} from '@duckdb/node-api';
import duckdb from '@duckdb/node-bindings';
import { cellOf } from './cell.ts';
import { bufferFor, type ColumnBuffer } from './column-buffer.ts';
import { allEmpty, CELL_BYTES, emptyTexts, encodeCells } from './column-encoder.ts';
import { quoteName } from './sql-text.ts';
import type { Cell, Column, ColumnTable, ColumnType, Store } from './store.ts';
import { translateStoreError } from './translate-store-error.ts';

export interface DuckDbSettings {
  /** Default `write`. `write` makes the file when it is missing. */
  readonly access?: 'read' | 'write';
  /** Threads of the engine; default 2. */
  readonly threads?: number;
  /** What the engine may keep in memory before it spills to `tempDirectory`; default 1024. */
  readonly memoryLimitMb?: number;
  /** Where it spills; default beside the file. */
  readonly tempDirectory?: string;
  /** The file that failures are said of; default the one that is opened. */
  readonly about?: string;
}

/** A file name that keeps the database in memory. */
export const IN_MEMORY = ':memory:';

const OWN_TYPES = new Map<DuckDBTypeId, ColumnType>([
  [DuckDBTypeId.VARCHAR, 'text'],
  [DuckDBTypeId.INTEGER, 'integer'],
  [DuckDBTypeId.DOUBLE, 'double'],
  [DuckDBTypeId.BOOLEAN, 'boolean'],
  [DuckDBTypeId.DATE, 'date'],
]);

/** Numbers of the engine that are not the project's own; they are read as doubles, one value at a time. */
const OTHER_NUMBERS = new Set<DuckDBTypeId>([
  DuckDBTypeId.TINYINT,
  DuckDBTypeId.SMALLINT,
  DuckDBTypeId.BIGINT,
  DuckDBTypeId.UTINYINT,
  DuckDBTypeId.USMALLINT,
  DuckDBTypeId.UINTEGER,
  DuckDBTypeId.UBIGINT,
  DuckDBTypeId.FLOAT,
  DuckDBTypeId.HUGEINT,
  DuckDBTypeId.UHUGEINT,
  DuckDBTypeId.DECIMAL,
]);

function asDouble(value: DuckDBValue): number {
  if (value === null) return Number.NaN;
  if (value instanceof DuckDBDecimalValue) return value.toDouble();
  if (typeof value === 'bigint' && (value > Number.MAX_SAFE_INTEGER || value < Number.MIN_SAFE_INTEGER)) {
    throw new RangeError(`The whole number ${value} does not fit a double; cast it to text or divide it in SQL.`);
  }
  return Number(value);
}

/** Reads a whole result; the columns of foreign types go through the slow path of the connector. */
async function readResult(result: DuckDBResult): Promise<ColumnTable> {
  const names = result.deduplicatedColumnNames();
  const typeIds = names.map((_, index) => result.columnTypeId(index));
  const buffers = names.map((name, index): ColumnBuffer | null => {
    const type = OWN_TYPES.get(typeIds[index]!);
    return type === undefined ? null : bufferFor(name, type, readOutside);
  });
  const bytesPerCell = typeIds.map((typeId) => {
    const type = OWN_TYPES.get(typeId);
    return type === undefined || type === 'text' ? 16 : CELL_BYTES[type];
  });
  const foreign = names.map((): DuckDBValue[] => []);
  let rowCount = 0;
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    const count = chunk.rowCount;
    for (let index = 0; index < names.length; index++) {
      const buffer = buffers[index]!;
      if (buffer === null) {
        chunk.appendColumnValues(index, foreign[index]!);
        continue;
      }
      const vector = duckdb.data_chunk_get_vector(chunk.chunk, index);
      const validity: Uint8Array | null = duckdb.vector_get_validity(vector, Math.ceil(count / 64) * 8) ?? null;
      buffer.take(duckdb.vector_get_data(vector, count * bytesPerCell[index]!), validity, count);
    }
    rowCount += count;
  }
  const columns = names.map((name, index): Column => {
    const buffer = buffers[index]!;
    if (buffer !== null) return buffer.finish();
    const values = foreign[index]!;
    if (OTHER_NUMBERS.has(typeIds[index]!))
      return { name, type: 'double', values: Float64Array.from(values, asDouble) };
    return { name, type: 'text', values: values.map((value) => (value === null ? null : String(value))) };
  });
  return { rowCount, columns };
}

function readOutside(pointerCell: ArrayBufferLike, byteOffset: number, byteCount: number): Uint8Array {
  return duckdb.get_data_from_pointer(pointerCell as ArrayBuffer, byteOffset, byteCount);
}

/** Fills one vector of a chunk with cells `start` to `start + count` of a column; all empty if there is no column. */
function fillVector(vector: duckdb.Vector, column: Column | null, start: number, count: number): void {
  let validity: Uint8Array | null;
  if (column === null) {
    validity = allEmpty(count);
  } else if (column.type === 'text') {
    const texts = column.values as readonly (string | null)[];
    validity = emptyTexts(texts, start, count);
    for (let row = 0; row < count; row++) {
      const text = texts[start + row];
      if (typeof text === 'string') duckdb.vector_assign_string_element(vector, row, text);
    }
  } else {
    const encoded = encodeCells(column, start, count);
    validity = encoded.validity;
    const { buffer, byteLength } = encoded.bytes;
    duckdb.copy_data_to_vector(vector, 0, buffer as ArrayBuffer, 0, byteLength);
  }
  if (validity !== null) {
    duckdb.vector_ensure_validity_writable(vector);
    duckdb.copy_data_to_vector_validity(vector, 0, validity.buffer as ArrayBuffer, 0, validity.byteLength);
  }
}

function appendChunks(appender: DuckDBAppender, columns: readonly (Column | null)[], rowCount: number): void {
  const types = columns.map((_, index) => appender.columnType(index));
  const chunk = DuckDBDataChunk.create(types);
  const rowsPerChunk = duckdb.vector_size();
  for (let start = 0; start < rowCount; start += rowsPerChunk) {
    const count = Math.min(rowsPerChunk, rowCount - start);
    chunk.reset();
    for (let index = 0; index < columns.length; index++) {
      fillVector(duckdb.data_chunk_get_vector(chunk.chunk, index), columns[index]!, start, count);
    }
    chunk.rowCount = count;
    appender.appendDataChunk(chunk);
  }
}

class DuckDbStore implements Store {
  readonly #instance: DuckDBInstance;
  readonly #connection: DuckDBConnection;
  readonly #file: string;
  /** The last call made; the next one waits for it, because a connection serves one result at a time. */
  #last: Promise<unknown> = Promise.resolve();
  #inTransaction = false;
  #closed = false;

  constructor(instance: DuckDBInstance, connection: DuckDBConnection, file: string) {
    this.#instance = instance;
    this.#connection = connection;
    this.#file = file;
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(async () => {
      if (this.#closed) throw new Error('The store is closed.');
      try {
        return await work();
      } catch (thrown) {
        throw translateStoreError(thrown, this.#file);
      }
    });
    this.#last = turn.catch(() => undefined);
    return turn;
  }

  run(sql: string): Promise<number> {
    return this.#inTurn(async () => (await this.#connection.run(sql)).rowsChanged);
  }

  query(sql: string): Promise<ColumnTable> {
    return this.#inTurn(async () => readResult(await this.#connection.stream(sql)));
  }

  async rows(sql: string): Promise<Record<string, Cell>[]> {
    const { rowCount, columns } = await this.query(sql);
    return Array.from({ length: rowCount }, (_, row) =>
      Object.fromEntries(columns.map((column) => [column.name, cellOf(column, row)])),
    );
  }

  append(table: string, data: ColumnTable): Promise<void> {
    return this.#inTurn(async () => {
      const described = await readResult(await this.#connection.stream(`DESCRIBE ${quoteName(table)}`));
      const names = described.columns[0]!.values as readonly string[];
      const unknown = data.columns.find((column) => !names.includes(column.name));
      if (unknown !== undefined)
        throw new Error(`Table ${table} has no column ${unknown.name}; it has ${names.join(', ')}.`);
      const short = data.columns.find((column) => column.values.length < data.rowCount);
      if (short !== undefined) {
        throw new RangeError(`Column ${short.name} has ${short.values.length} values for ${data.rowCount} rows.`);
      }
      const ordered = names.map((name) => data.columns.find((column) => column.name === name) ?? null);
      const appender = await this.#connection.createAppender(table);
      try {
        checkTypes(appender, ordered, table);
        appendChunks(appender, ordered, data.rowCount);
        appender.flushSync();
      } catch (thrown) {
        appender.clear();
        throw thrown;
      } finally {
        appender.closeSync();
      }
    });
  }

  async transaction<T>(body: () => Promise<T>): Promise<T> {
    if (this.#inTransaction) throw new Error('A transaction is open already; they do not nest.');
    this.#inTransaction = true;
    try {
      await this.run('BEGIN TRANSACTION');
      try {
        const answer = await body();
        await this.run('COMMIT');
        return answer;
      } catch (thrown) {
        // After some failures the engine has rolled back by itself and refuses; the first failure is the one to tell.
        await this.run('ROLLBACK').catch(() => undefined);
        throw thrown;
      }
    } finally {
      this.#inTransaction = false;
    }
  }

  async close(): Promise<void> {
    await this.#last;
    if (this.#closed) return;
    this.#closed = true;
    this.#connection.closeSync();
    this.#instance.closeSync();
  }
}

/** The engine crashes rather than complains when bytes of one type are copied into a vector of another. */
function checkTypes(appender: DuckDBAppender, columns: readonly (Column | null)[], table: string): void {
  columns.forEach((column, index) => {
    const type = OWN_TYPES.get(appender.columnType(index).typeId);
    if (column !== null && column.type !== type) {
      throw new TypeError(`Column ${table}.${column.name} is ${type ?? 'of a foreign type'}, not ${column.type}.`);
    }
  });
}

/**
 * Opens a DuckDB file, or a database in memory.
 * @throws ExpectedFailure of kind `book`: held by another process, damaged, newer, no permission, disk full
 */
export async function openDuckDbStore(file: string, settings: DuckDbSettings = {}): Promise<Store> {
  const { access = 'write', threads = 2, memoryLimitMb = 1024, tempDirectory = `${file}.tmp`, about = file } = settings;
  const options: Record<string, string> = {
    threads: String(threads),
    memory_limit: `${memoryLimitMb}MB`,
    // Nothing may be fetched over the network behind the user's back.
    autoinstall_known_extensions: 'false',
  };
  if (file !== IN_MEMORY) {
    options.temp_directory = tempDirectory;
    // No query of ours needs a tenth of that; one gone wrong shall not fill the disk.
    options.max_temp_directory_size = '8GB';
    options.access_mode = access === 'read' ? 'READ_ONLY' : 'READ_WRITE';
  }
  try {
    // The cache shares one database among the handles of a process: the system's file lock does not tell them apart.
    const instance = await (file === IN_MEMORY
      ? DuckDBInstance.create(file, options)
      : DuckDBInstance.fromCache(file, options));
    return new DuckDbStore(instance, await instance.connect(), about);
  } catch (thrown) {
    throw translateStoreError(thrown, about);
  }
}
