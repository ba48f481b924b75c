import type { Person } from '../scenario/person.ts';

/** A walk: the batter takes first and pushes the forced runners; answers the runs. */
export function walkAll(runners: (Person | null)[], batter: Person): number {
  let pushed: Person | null = batter;
  for (let base = 1; base <= 3 && pushed !== null; base += 1) {
    const moved: Person | null = runners[base] ?? null;
    runners[base] = pushed;
    pushed = moved;
  }
  return pushed === null ? 0 : 1;
}
