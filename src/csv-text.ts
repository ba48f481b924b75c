/** What makes a spreadsheet take a text for a formula. */
const FORMULA_START = /^[=+\-@\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?\d+(\.\d+)?$/;
const NEEDS_QUOTES = /[",\r\n]/;
/** Most cells need none of the above; one look tells. */
const NEEDS_CARE = /^$|^[=+\-@\t\r\n]|[",\t\r\n]/;

/** A text cell: an apostrophe before what a spreadsheet would run, quotes where RFC 4180 or the separator wants them. */
export function csvText(text: string, separator: ',' | '\t' = ','): string {
  if (!NEEDS_CARE.test(text)) return text;
  // Null is an empty cell; a text without letters is a pair of quotes.
  if (text === '') return '""';
  const harmless = FORMULA_START.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(harmless) || harmless.includes(separator) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
