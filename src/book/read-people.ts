import type { Book } from './open-book.ts';
import { type FieldTime, readFieldTime } from './read-field-time.ts';
import type { ColumnValues } from './store.ts';

/** What a book knows of the people in it, by person id; who is missing from a map has no such fact recorded. */
export interface PeopleFacts {
  readonly names: ReadonlyMap<string, string>;
  /** `L` or `R`. */
  readonly throws: ReadonlyMap<string, string>;
  /** ISO date of birth. */
  readonly born: ReadonlyMap<string, string>;
  /** By `fieldTimeKey`. */
  readonly fieldTime: FieldTime;
}

export async function readPeople(book: Book): Promise<PeopleFacts> {
  const { columns } = await book.store.query(
    `SELECT person_id, min(name) AS name, min(throws) AS throws, min(born) AS born
     FROM people GROUP BY person_id ORDER BY person_id`,
  );
  const ids = columns[0]!.values as readonly string[];
  const factOf = (values: ColumnValues) => {
    const facts = new Map<string, string>();
    ids.forEach((id, row) => {
      const value = (values as readonly (string | null)[])[row];
      if (value !== null && value !== undefined) facts.set(id, value);
    });
    return facts;
  };
  return {
    names: factOf(columns[1]!.values),
    throws: factOf(columns[2]!.values),
    born: factOf(columns[3]!.values),
    fieldTime: await readFieldTime(book),
  };
}
