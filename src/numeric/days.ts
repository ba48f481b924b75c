const MS_PER_DAY = 86_400_000;

/** ISO date of a day count since 1970-01-01. */
export function isoDateOf(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Day count since 1970-01-01 of an ISO date. */
export function dayOf(isoDate: string): number {
  return Date.parse(`${isoDate}T00:00:00Z`) / MS_PER_DAY;
}

/** Years from one ISO date to another, a year being 365.25 days. */
export function yearsBetween(from: string, to: string): number {
  return (dayOf(to) - dayOf(from)) / 365.25;
}
