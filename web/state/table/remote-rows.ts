import type { TableAnswer } from '../../../src/server/answers.ts';
import type { Row, RowSource } from './row-source.ts';

const PIECE_ROWS = 200;
/** Pieces kept; a long walk through a long table must not fill the memory. */
const MOST_PIECES = 200;

export interface TableAddress {
  readonly name: string;
  /** Filters and sort, as the server reads them. */
  readonly words: Readonly<Record<string, string>>;
}

export interface RemoteEffects {
  askTable(address: string, signal: AbortSignal): Promise<TableAnswer>;
  askText(address: string): Promise<string>;
}

/** Rows of a table of the server, fetched in pieces as they come into view. */
export class RemoteRows implements RowSource {
  rowCount: number | null = null;
  failure: string | null = null;
  onChange = () => {};
  readonly #table: TableAddress;
  readonly #effects: RemoteEffects;
  readonly #pieces = new Map<number, readonly Row[]>();
  readonly #asked = new Map<number, AbortController>();
  /** Pieces that failed; they are asked for again only when somebody says so. */
  readonly #failed = new Set<number>();

  constructor(table: TableAddress, effects: RemoteEffects) {
    this.#table = table;
    this.#effects = effects;
  }

  row(index: number): Row | undefined {
    return this.#pieces.get(Math.floor(index / PIECE_ROWS))?.[index % PIECE_ROWS];
  }

  /** Pieces that were asked for and have gone out of sight meanwhile are not waited for. */
  need(first: number, end: number): void {
    const firstPiece = Math.floor(first / PIECE_ROWS);
    const lastPiece = Math.max(firstPiece, Math.floor((end - 1) / PIECE_ROWS));
    for (const [piece, asking] of this.#asked) {
      if (piece < firstPiece || piece > lastPiece) {
        asking.abort();
        this.#asked.delete(piece);
      }
    }
    for (let piece = firstPiece; piece <= lastPiece; piece++) {
      if (!this.#pieces.has(piece) && !this.#asked.has(piece) && !this.#failed.has(piece)) void this.#fetch(piece);
    }
  }

  retry(): void {
    this.#failed.clear();
    this.failure = null;
    this.onChange();
  }

  asTabText(columns: readonly string[], first: number, end: number): Promise<string> {
    const window = { columns: columns.join(','), from: String(first), count: String(end - first) };
    return this.#effects.askText(this.#address('clipboard', window));
  }

  asCsv(columns: readonly string[]): { readonly address: string } {
    return { address: this.#address('download', { columns: columns.join(',') }) };
  }

  #address(verb: string, words: Readonly<Record<string, string>>): string {
    const query = new URLSearchParams({ ...this.#table.words, ...words });
    return `/api/${verb}/${this.#table.name}?${query}`;
  }

  async #fetch(piece: number): Promise<void> {
    const asking = new AbortController();
    this.#asked.set(piece, asking);
    const window = { from: String(piece * PIECE_ROWS), count: String(PIECE_ROWS) };
    try {
      const answer = await this.#effects.askTable(this.#address('table', window), asking.signal);
      if (asking.signal.aborted) return;
      this.rowCount = answer.row_count;
      this.failure = null;
      this.#keep(piece, rowsOf(answer));
    } catch (thrown) {
      if (asking.signal.aborted) return;
      this.#failed.add(piece);
      this.failure = thrown instanceof Error ? thrown.message : String(thrown);
    }
    this.#asked.delete(piece);
    this.onChange();
  }

  #keep(piece: number, rows: readonly Row[]): void {
    this.#pieces.set(piece, rows);
    for (const oldest of this.#pieces.keys()) {
      if (this.#pieces.size <= MOST_PIECES) return;
      this.#pieces.delete(oldest);
    }
  }
}

/** The rows of an answer that came by columns. */
export function rowsOf({ columns }: Pick<TableAnswer, 'columns'>): Row[] {
  const length = columns[0]?.values.length ?? 0;
  return Array.from({ length }, (_, index) =>
    Object.fromEntries(columns.map(({ name, values }) => [name, values[index] ?? null])),
  );
}
