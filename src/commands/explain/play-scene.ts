import type { PlayTable } from '../../chances/play-table.ts';
import { BASES, POSITIONS } from '../../diamond/play-codes.ts';

/** Where everybody and everything was on a play, as recorded, whatever its grade; NaN for what was not seen. */
export interface PlayScene {
  /** Positions 1 to 9. */
  readonly men: readonly {
    readonly position: number;
    readonly fielderId: string | null;
    readonly name: string | null;
    readonly startXFt: number;
    readonly startYFt: number;
  }[];
  /** Where and when a ball in the air came down or was caught. */
  readonly landing: { readonly xFt: number; readonly yFt: number; readonly timeS: number };
  /** Null when nobody was seen to have it in hand; a ball picked up after it fell counts here. */
  readonly inHand: {
    readonly position: number;
    readonly xFt: number;
    readonly yFt: number;
    readonly timeS: number;
  } | null;
  /** Word of BASES, empty for no recorded throw. */
  readonly throwTo: string;
}

export function sceneOf(table: PlayTable, row: number, nameOf: (id: string | null) => string | null): PlayScene {
  const by = table.gatheredBy[row];
  return {
    men: POSITIONS.map((position) => {
      const from = row * 9 + position - 1;
      const fielder = table.fielder[from];
      const fielderId = fielder < 0 ? null : table.people[fielder];
      return {
        position,
        fielderId,
        name: nameOf(fielderId),
        startXFt: table.startXFt[from],
        startYFt: table.startYFt[from],
      };
    }),
    landing: { xFt: table.landingXFt[row], yFt: table.landingYFt[row], timeS: table.hangTimeS[row] },
    inHand:
      by === 0
        ? null
        : { position: by, xFt: table.gatherXFt[row], yFt: table.gatherYFt[row], timeS: table.gatherTimeS[row] },
    throwTo: BASES[table.throwTo[row]],
  };
}
