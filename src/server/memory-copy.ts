import { copyTables } from '../book/copy-tables.ts';
import { openMemoryStore } from '../book/open-memory-store.ts';
import type { Store } from '../book/store.ts';
import type { BookCopy } from './book-copy.ts';

type InTurn = <T>(work: () => Promise<T>) => Promise<T>;

/** Copied at once: every page asks for them, and they are small. */
const SMALL_TABLES = ['book_info', 'build_settings', 'fielders', 'teams', 'balance', 'people', 'intake_log'] as const;

/** The tables of one version of a book in memory, the large ones copied when they are first asked for. */
export class MemoryCopy implements BookCopy {
  readonly version: string;
  readonly behind = null;
  readonly #dir: string;
  readonly #store: Store;
  readonly #inTurn: InTurn;
  readonly #copies = new Map<string, Promise<void>>();
  readonly #answers = new Map<string, Promise<unknown>>();

  private constructor(dir: string, version: string, store: Store, inTurn: InTurn) {
    this.#dir = dir;
    this.version = version;
    this.#store = store;
    this.#inTurn = inTurn;
  }

  /**
   * @param inTurn runs work while nobody else in this process has the file open; the caller is in such a turn now
   * @throws ExpectedFailure of kind `book` when the book cannot be opened now
   */
  static async of(dir: string, version: string, inTurn: InTurn): Promise<MemoryCopy> {
    const store = await openMemoryStore(`The book ${dir}`);
    try {
      await copyTables(store, dir, SMALL_TABLES);
    } catch (thrown) {
      await store.close();
      throw thrown;
    }
    const copy = new MemoryCopy(dir, version, store, inTurn);
    for (const name of SMALL_TABLES) copy.#copies.set(name, Promise.resolve());
    return copy;
  }

  async tables(...names: string[]): Promise<Store> {
    const missing = names.filter((name) => !this.#copies.has(name));
    if (missing.length > 0) {
      const copying = this.#inTurn(() => copyTables(this.#store, this.#dir, missing));
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
