import type { PlayTable } from '../../chances/play-table.ts';

/** A person's id, null when nobody knows who it was. */
export function personId(table: PlayTable, person: number): string | null {
  return person < 0 ? null : table.people[person];
}
