const CODES = 'dmyYbBHMSfpIjaAzZ%';

/** What is wrong with a date format, in words; undefined for one that can be used. */
export function checkDateFormat(format: string): string | undefined {
  const codes = [...format.matchAll(/%(-?.?)/gs)].map(([, code]) => code!);
  const unknown = codes.find((code) => !CODES.includes(code.replace('-', '') || ' '));
  if (unknown !== undefined) {
    return `the date format '${format}' has the unknown code '%${unknown}'; use %d day, %m month, %Y year, %y, %b, %B`;
  }
  const has = (...any: string[]) => codes.some((code) => any.includes(code.replace('-', '')));
  if (!has('Y', 'y') || !(has('j') || (has('d') && has('m', 'b', 'B')))) {
    return `the date format '${format}' does not give a whole date: it needs a day (%d), a month (%m) and a year (%Y)`;
  }
  return undefined;
}
