import type { Person } from '../scenario/person.ts';

/** Field time as columns; `fielder` is an index into the league's people, `team` into its clubs. */
export interface FieldTimeColumns {
  readonly season: Int32Array;
  readonly team: Int32Array;
  readonly fielder: Int32Array;
  readonly position: Uint8Array;
  readonly outsPlayed: Int32Array;
}

/** Counts outs played by season, club, man and position. */
export class FieldTime {
  private readonly outs = new Map<string, number>();

  add(season: number, team: number, men: readonly Person[], outs: number): void {
    for (let p = 1; p <= 9; p += 1) {
      const key = `${season},${team},${men[p]!.index},${p}`;
      this.outs.set(key, (this.outs.get(key) ?? 0) + outs);
    }
  }

  /** Rows in the order of season, club, position, man. */
  columns(): FieldTimeColumns {
    const rows = [...this.outs].map(([key, outs]) => [...key.split(',').map(Number), outs]);
    rows.sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]! || a[3]! - b[3]! || a[2]! - b[2]!);
    return {
      season: Int32Array.from(rows, (row) => row[0]!),
      team: Int32Array.from(rows, (row) => row[1]!),
      fielder: Int32Array.from(rows, (row) => row[2]!),
      position: Uint8Array.from(rows, (row) => row[3]!),
      outsPlayed: Int32Array.from(rows, (row) => row[4]!),
    };
  }
}
