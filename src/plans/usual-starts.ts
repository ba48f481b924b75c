import { situationOf } from '../chances/even-draws.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { CATCHER_START, PITCHER_START } from '../diamond/field.ts';
import { SIDES } from '../diamond/play-codes.ts';
import { NINE } from './chance-board.ts';
import { type ConvexRegion, trimmedHull } from './convex-region.ts';

/** Where men usually start, by batter's side and by base-out state, league-wide and by club; and where they were ever seen. */
export interface UsualStarts {
  /** Average start of everybody: nine (x, y) pairs. Falls back from the state to like situations, then to the side. */
  even(side: number, state: number): Float64Array;
  /** The same of one club (index into the table's teams); null when too few of its plays were seen. */
  own(team: number, side: number, state: number): Float64Array | null;
  /** Region of the starts of one position against one side; null when too few were seen. */
  seen(position: number, side: number): ConvexRegion | null;
}

/** Fewest plays that a club's own usual start may rest on; the league's asks for four times as many. */
const FEWEST_PLAYS = 25;
/** Share of the starts, the loneliest, that do not make a region. */
const LEFT_OUT = 0.01;
const FEWEST_FOR_A_REGION = 100;
const STATES = 24;

/** Running sums of starts: nine x, nine y, nine counts. */
class Sums {
  readonly values = new Float64Array(3 * NINE);

  add(table: PlayTable, row: number): void {
    for (let k = 0; k < NINE; k += 1) {
      const x = table.startXFt[row * NINE + k];
      const y = table.startYFt[row * NINE + k];
      if (Number.isNaN(x + y)) continue;
      this.values[k] += x;
      this.values[NINE + k] += y;
      this.values[2 * NINE + k] += 1;
    }
  }

  addAll(other: Sums): void {
    for (let k = 0; k < this.values.length; k += 1) this.values[k] += other.values[k];
  }

  /** Mean starts, or null when a movable position was seen fewer than `fewest` times. */
  mean(fewest: number): Float64Array | null {
    const starts = new Float64Array(2 * NINE);
    for (let k = 0; k < NINE; k += 1) {
      const n = this.values[2 * NINE + k];
      // Pitcher and catcher start from the same place always.
      if (k >= 2 && n < fewest) return null;
      const usual = k === 0 ? PITCHER_START : CATCHER_START;
      starts[2 * k] = k < 2 && n === 0 ? usual.x : this.values[k] / n;
      starts[2 * k + 1] = k < 2 && n === 0 ? usual.y : this.values[NINE + k] / n;
    }
    return starts;
  }
}

export function gatherUsualStarts(table: PlayTable): UsualStarts {
  const sides = SIDES.length;
  const league = Array.from({ length: sides * STATES }, () => new Sums());
  const clubs = Array.from({ length: table.teams.length * sides * STATES }, () => new Sums());
  for (let row = 0; row < table.count; row += 1) {
    const cell = table.batterSide[row] * STATES + table.outsBefore[row] * 8 + table.bases[row];
    league[cell].add(table, row);
    clubs[table.fieldingTeam[row] * sides * STATES + cell].add(table, row);
  }
  const regions = new Map<number, ConvexRegion | null>();
  const seen = (position: number, side: number) => {
    const key = position * sides + side;
    if (!regions.has(key)) regions.set(key, regionOf(table, position, side));
    return regions.get(key)!;
  };
  return {
    even: (side, state) => {
      const found = widening(league, side * STATES, state, 4 * FEWEST_PLAYS) ?? nominal(table, side);
      return found.slice();
    },
    own: (team, side, state) => widening(clubs, (team * sides + side) * STATES, state, FEWEST_PLAYS),
    seen,
  };
}

/** Mean over the state's own plays, else over those of like situations, else over all of the side. */
function widening(cells: readonly Sums[], from: number, state: number, fewest: number): Float64Array | null {
  const over = (keep: (each: number) => boolean) => {
    const sums = new Sums();
    for (let each = 0; each < STATES; each += 1) if (keep(each)) sums.addAll(cells[from + each]);
    return sums.mean(fewest);
  };
  return over((each) => each === state) ?? over((each) => situationOf(each) === situationOf(state)) ?? over(() => true);
}

/** In a small book: the mean of whatever was seen against either side, and for what was not a usual place (from memory). */
function nominal(table: PlayTable, side: number): Float64Array {
  const sums = new Sums();
  for (let row = 0; row < table.count; row += 1) if (table.batterSide[row] === side) sums.add(table, row);
  const starts = sums.mean(1);
  if (starts !== null) return starts;
  for (let row = 0; row < table.count; row += 1) if (table.batterSide[row] !== side) sums.add(table, row);
  return sums.mean(1) ?? Float64Array.from(USUAL_PLACES);
}

const USUAL_PLACES = [
  ...[PITCHER_START.x, PITCHER_START.y, CATCHER_START.x, CATCHER_START.y],
  ...[65, 100, 35, 142, -65, 98, -35, 142, -130, 262, 0, 318, 130, 262],
];

function regionOf(table: PlayTable, position: number, side: number): ConvexRegion | null {
  const points: number[] = [];
  for (let row = 0; row < table.count; row += 1) {
    const at = row * NINE + position - 1;
    if (table.batterSide[row] !== side || Number.isNaN(table.startXFt[at] + table.startYFt[at])) continue;
    points.push(table.startXFt[at], table.startYFt[at]);
  }
  return points.length < 2 * FEWEST_FOR_A_REGION ? null : trimmedHull(Float64Array.from(points), LEFT_OUT);
}
