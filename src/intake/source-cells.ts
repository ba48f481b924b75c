import { quoteText } from '../book/sql-text.ts';
import type { SourceReader } from './source-sql.ts';

/**
 * Source cells used by a section, each read and cleaned once. Names in SQL: r as it stands, s trimmed text, n number.
 * Whatever runs on every cell of a file costs as much as reading it, so full trimming is kept for cells that need it.
 */
export class SourceCells {
  readonly #reader: SourceReader;
  readonly #decimal: string;
  readonly #empty: readonly string[];
  readonly #cells = new Map<string, string>();
  readonly #texts = new Set<number>();
  readonly #numbers = new Set<number>();

  constructor(reader: SourceReader, decimal: string, empty: readonly string[]) {
    this.#reader = reader;
    this.#decimal = decimal;
    this.#empty = empty;
  }

  #index(name: string, place: string): number {
    if (!this.#cells.has(name)) this.#cells.set(name, this.#reader.cell(name, place));
    return [...this.#cells.keys()].indexOf(name);
  }

  #cleaned(raw: string): string {
    const trimmed = `trim(${raw}, ' \t\r\n')`;
    if (this.#empty.length > 0) {
      const words = ['', ...this.#empty.map((word) => word.trim())].map(quoteText);
      return `CASE WHEN ${trimmed} IN (${words.join(', ')}) THEN NULL ELSE ${trimmed} END`;
    }
    // Everything below '!' begins with a space or a control character, or is empty.
    const ends = [' ', '\t', '\r', '\n'].map((end) => `suffix(${raw}, '${end}')`).join(' OR ');
    return `CASE WHEN ${raw} < '!' OR ${ends} THEN nullif(${trimmed}, '') ELSE ${raw} END`;
  }

  /** Trimmed text, NULL when empty; worked out for every row. */
  text(name: string, place: string): string {
    const index = this.#index(name, place);
    this.#texts.add(index);
    return `s${index}`;
  }

  /** The same, worked out where it stands: for branches that few rows take. */
  rareText(name: string, place: string): string {
    return `(${this.#cleaned(`r${this.#index(name, place)}`)})`;
  }

  number(name: string, place: string): string {
    const index = this.#index(name, place);
    this.#numbers.add(index);
    return `n${index}`;
  }

  /** The source with r, s and n columns. */
  from(): string {
    const raw = [...this.#cells.values()].map((cell, index) => `${cell} AS r${index}`);
    const { broken } = this.#reader;
    if (broken !== undefined) raw.push(`${broken} AS broken`);
    const texts = [...this.#texts].map((index) => `, ${this.#cleaned(`r${index}`)} AS s${index}`);
    const numbers = [...this.#numbers].map((index) => `, ${this.#numberSql(`r${index}`)} AS n${index}`);
    return `(SELECT *${texts.join('')}${numbers.join('')} FROM (SELECT ${raw.join(', ') || '1'} FROM ${this.#reader.from()}))`;
  }

  #numberSql(raw: string): string {
    const given = this.#empty.length === 0 ? raw : `(${this.#cleaned(raw)})`;
    if (this.#decimal !== ',') return `try_cast(${given} AS DOUBLE)`;
    // Beside a decimal comma a point is a mark of thousands, and such a number is not to be guessed at.
    return `CASE WHEN contains(${given}, '.') THEN NULL ELSE try_cast(replace(${given}, ',', '.') AS DOUBLE) END`;
  }
}
