import { BASE_SPOTS } from '../diamond/field.ts';
import { INFIELD, ON_FIRST } from '../diamond/play-codes.ts';
import { WHOLE } from './grades.ts';
import { type Grounders, INFIELD_SIZE } from './grounders.ts';

const SECOND = BASE_SPOTS[2];

/**
 * The grounders on which a second out was possible: a runner on first, fewer than two out, an infielder who was seen to
 * gather. Columns have length `count`.
 */
export interface TurnPlays {
  readonly count: number;
  /** Number of the grounder. */
  readonly at: Int32Array;
  /** Position of the man who gathered. */
  readonly starter: Uint8Array;
  /** Position of the man who would have turned it; 0 when the ball went to nobody who could, or the starter needed nobody. */
  readonly pivot: Uint8Array;
  /** 1 when two outs or more were made. */
  readonly made: Uint8Array;
}

/** Codes of BASES; any other is second base. */
const [TO_NOBODY, TO_FIRST, TO_THIRD, TO_HOME] = [0, 1, 3, 4];
const [SECOND_BASEMAN, SHORTSTOP] = [4, 6];

/**
 * A shortstop or second baseman who has the ball this near to second base steps on it himself (some four strides; from
 * memory). Asked only where no throw was recorded.
 */
const OWN_BAG_FT = 15;

/**
 * Who takes the throw at second base, by the position of the man who gathered (index 1 to 6): on the left side the second
 * baseman, on the right side the shortstop; from pitcher and catcher the shortstop. Common practice, from memory.
 */
const USUAL_PIVOT = [0, 6, 6, 6, 6, 4, 4];

/** In an overshift the other of the two takes it, when he starts nearer to the bag than the usual pivot by more than this. */
const NEARER_FT = 15;

/** Who takes a throw to second base from the man who gathered this grounder: the shortstop or the second baseman. */
export function pivotAtSecond(grounders: Grounders, at: number): number {
  const starter = grounders.table.gatheredBy[grounders.row[at]];
  const usual = USUAL_PIVOT[starter];
  const other = usual === SHORTSTOP ? SECOND_BASEMAN : SHORTSTOP;
  // False when a start was not seen.
  const nearer = startToSecondFt(grounders, at, other) + NEARER_FT < startToSecondFt(grounders, at, usual);
  return nearer && other !== starter ? other : usual;
}

/** Who would have turned the ball, by who gathered it where and where he threw it; 0 for nobody. */
function pivotOf(grounders: Grounders, at: number): number {
  const { table, row } = grounders;
  const starter = table.gatheredBy[row[at]];
  const middleMan = starter === SECOND_BASEMAN || starter === SHORTSTOP;
  switch (table.throwTo[row[at]]) {
    case TO_FIRST:
      return 0;
    case TO_THIRD:
      return starter === 5 ? SHORTSTOP : 5;
    case TO_HOME:
      return starter === 2 ? 1 : 2;
    case TO_NOBODY:
      return middleMan && secondBaseFt(grounders, at) <= OWN_BAG_FT ? 0 : pivotAtSecond(grounders, at);
    default:
      return pivotAtSecond(grounders, at);
  }
}

/** Distance from the start of a position to second base, feet; NaN when it was not seen. */
export function startToSecondFt(grounders: Grounders, at: number, position: number): number {
  const from = (at * INFIELD_SIZE + position - 1) * 2;
  return Math.hypot(grounders.starts[from] - SECOND.x, grounders.starts[from + 1] - SECOND.y);
}

/** Distance from the gather to second base, feet; NaN when nobody saw the place. */
export function secondBaseFt(grounders: Grounders, at: number): number {
  const { table, row } = grounders;
  return Math.hypot(table.gatherXFt[row[at]] - SECOND.x, table.gatherYFt[row[at]] - SECOND.y);
}

/** The grounders of a book on which a second out was possible, in their order. */
export function selectTurnPlays(grounders: Grounders): TurnPlays {
  const { table, row } = grounders;
  const kept: number[] = [];
  for (let at = 0; at < grounders.count; at += 1) {
    const starter = table.gatheredBy[row[at]];
    if (starter < 1 || starter > INFIELD.length || grounders.grade[at] === WHOLE) continue;
    if ((table.bases[row[at]] & ON_FIRST) !== 0 && table.outsBefore[row[at]] < 2) kept.push(at);
  }
  return {
    count: kept.length,
    at: Int32Array.from(kept),
    starter: Uint8Array.from(kept, (at) => table.gatheredBy[row[at]]),
    pivot: Uint8Array.from(kept, (at) => pivotOf(grounders, at)),
    made: Uint8Array.from(kept, (at) => (table.outsMade[row[at]] >= 2 ? 1 : 0)),
  };
}
