import type { Book } from './open-book.ts';

/** Outs that a man was in the field at a position for a club in a season, by `fieldTimeKey`; empty when the book has no field_time. */
export type FieldTime = ReadonlyMap<string, number>;

export function fieldTimeKey(season: number, team: string, fielderId: string, position: number): string {
  return JSON.stringify([season, team, fielderId, position]);
}

export async function readFieldTime(book: Book): Promise<FieldTime> {
  const { rowCount, columns } = await book.store.query(
    `SELECT season, team, fielder_id, position, sum(outs_played)::INTEGER AS outs FROM field_time GROUP BY ALL ORDER BY ALL`,
  );
  const [season, team, fielder, position, outs] = columns.map(({ values }) => values);
  const byKey = new Map<string, number>();
  for (let row = 0; row < rowCount; row += 1) {
    const key = fieldTimeKey(Number(season![row]), String(team![row]), String(fielder![row]), Number(position![row]));
    byKey.set(key, Number(outs![row]));
  }
  return byKey;
}
