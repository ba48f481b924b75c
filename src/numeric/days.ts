const MS_PER_DAY = 86_400_000;

/** ISO date of a day count since 1970-01-01. */
export function isoDateOf(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Day count since 1970-01-01 of an ISO date. */
export function dayOf(isoDate: string): number {
  return Date.parse(`${isoDate}T00:00:00Z`) / MS_PER_DAY;
}
