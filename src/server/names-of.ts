import type { BookCopy } from './book-copy.ts';

/** Names by person id, for tables that hold ids only. */
export function namesOf(copy: BookCopy): Promise<Record<string, string>> {
  return copy.cached('names', async () => {
    const store = await copy.tables('people');
    const { columns } = await store.query('SELECT person_id, name FROM people WHERE name IS NOT NULL');
    const [ids, names] = columns.map(({ values }) => values as readonly string[]);
    return Object.fromEntries(ids!.map((id, row) => [id, names![row]!]));
  });
}
