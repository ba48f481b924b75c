import { nameAlignment } from '../diamond/alignment.ts';
import { rightSideInfielders } from '../diamond/alignment-sides.ts';
import { INFIELD, POSITION_COUNT } from '../diamond/play-codes.ts';
import { type Legality, legalTwoASide } from '../diamond/playing-rules.ts';
import type { PlayTable } from './play-table.ts';

/** The shape of an infield and what the two-a-side rule says of it (decision 030). */
export interface PlayAlignment {
  /** Null, like the count, when one of the four infielders was not seen. */
  readonly name: string | null;
  readonly rightSideInfielders: number | null;
  readonly twoASide: Legality;
}

/** Filled anew by each call. */
const starts = new Float64Array(2 * INFIELD.length);

/** The alignment of the play in `row`, from the recorded starts alone. */
export function alignmentOf(table: PlayTable, row: number): PlayAlignment {
  for (let k = 0; k < INFIELD.length; k += 1) {
    starts[2 * k] = table.startXFt[row * POSITION_COUNT + k];
    starts[2 * k + 1] = table.startYFt[row * POSITION_COUNT + k];
  }
  const context = { outs: table.outsBefore[row], bases: table.bases[row], batterSide: table.batterSide[row] };
  return {
    name: nameAlignment(starts, 0, context),
    rightSideInfielders: rightSideInfielders(starts, 0),
    twoASide: legalTwoASide(starts, 0),
  };
}
