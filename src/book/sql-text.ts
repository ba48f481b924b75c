/** A name as SQL wants it: quoted, so that no column name can be taken for a word of the language. */
export function quoteName(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}

/** A text as an SQL literal. */
export function quoteText(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}
