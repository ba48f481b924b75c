import type { Book } from '../book/open-book.ts';
import { openMemoryStore } from '../book/open-memory-store.ts';
import { createTablesSql } from '../book/schema.ts';
import { quoteName } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import type { BookCopy } from './book-copy.ts';

type WithBook = <T>(work: (book: Book) => Promise<T>) => Promise<T>;

/** The tables of one version of a book in memory, each copied when it is first asked for. */
export class MemoryCopy implements BookCopy {
  readonly version: string;
  readonly behind = null;
  readonly #store: Store;
  readonly #withBook: WithBook;
  readonly #copies = new Map<string, Promise<void>>();
  readonly #answers = new Map<string, Promise<unknown>>();

  private constructor(version: string, store: Store, withBook: WithBook) {
    this.version = version;
    this.#store = store;
    this.#withBook = withBook;
  }

  /** @throws ExpectedFailure of kind `book` when the book cannot be opened now */
  static async of(version: string, withBook: WithBook): Promise<MemoryCopy> {
    const store = await openMemoryStore();
    try {
      await store.run(createTablesSql());
      const copy = new MemoryCopy(version, store, withBook);
      await copy.tables('book_info', 'build_settings');
      return copy;
    } catch (thrown) {
      await store.close();
      throw thrown;
    }
  }

  async tables(...names: string[]): Promise<Store> {
    const missing = names.filter((name) => !this.#copies.has(name));
    if (missing.length > 0) {
      const copying = this.#withBook(async (book) => {
        for (const name of missing) {
          // A copy that was broken off may have left rows.
          await this.#store.run(`DELETE FROM ${quoteName(name)}`);
          await this.#store.append(name, await book.store.query(`SELECT * FROM ${quoteName(name)}`));
        }
      });
      for (const name of missing) {
        this.#copies.set(name, copying);
        copying.catch(() => this.#copies.delete(name));
      }
    }
    await Promise.all(names.map((name) => this.#copies.get(name)));
    return this.#store;
  }

  cached<T>(key: string, make: () => Promise<T>): Promise<T> {
    let answer = this.#answers.get(key) as Promise<T> | undefined;
    if (answer === undefined) {
      answer = make();
      this.#answers.set(key, answer);
      answer.catch(() => this.#answers.delete(key));
    }
    return answer;
  }

  async close(): Promise<void> {
    await this.#store.close();
  }
}
