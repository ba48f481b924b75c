import { selectAirBalls } from '../chances/air/air-balls.ts';
import type { AirModels } from '../chances/air/air-models.ts';
import { projectFlights } from '../chances/air/carry.ts';
import type { CatchModels } from '../chances/air/flight-chances.ts';
import type { InfieldModels } from '../chances/grounder-models.ts';
import { selectGrounders } from '../chances/grounders.ts';
import { allocatePlayTable, type PlayTable } from '../chances/play-table.ts';
import { SIDES } from '../diamond/play-codes.ts';
import { type RunMode, type StakeModels, stakes } from '../ledger/runs/stakes.ts';
import type { Skills } from '../ratings/skills.ts';
import { type BallSettings, type LeagueSide, prepareLeagueSide } from './batter-balls.ts';
import { NINE } from './chance-board.ts';
import { BALL_SETTINGS } from './choose-ball-settings.ts';
import { type BallColumns, collectSeenBalls, type SeenBalls } from './seen-balls.ts';
import { gatherUsualStarts, type UsualStarts } from './usual-starts.ts';

/** What plans need of a book. */
export interface PlanData {
  readonly table: PlayTable;
  readonly grounders: InfieldModels | null;
  readonly air: (CatchModels & Pick<AirModels, 'carry'>) | null;
  /** What an out is worth. */
  readonly runs: { readonly mode: RunMode; readonly models?: StakeModels | undefined };
  /** What the men are rated; without it, no plan with own men. */
  readonly skills?: Skills | undefined;
  /** Other settings of how a man's balls are drawn toward the league's. */
  readonly settings?: BallSettings | undefined;
}

/** Everything about a book that does not depend on the question, reckoned once. Nothing in it changes. */
export interface PlanGrounds {
  readonly data: PlanData;
  readonly balls: SeenBalls;
  /** By code of SIDES. */
  readonly sides: readonly LeagueSide[];
  /** Numbers of a man's balls by his index in the table's people, from both sides; and of those off a pitcher. */
  readonly ofBatter: ReadonlyMap<number, readonly number[]>;
  readonly ofPitcher: ReadonlyMap<number, readonly number[]>;
  readonly usual: UsualStarts;
  /** Usual home-to-first time by person, NaN when not known; and by side. */
  readonly runnerS: Float64Array;
  readonly sideRunnerS: readonly number[];
  /** By club: the man who was seen most at each position in its last season, -1 for nobody. */
  readonly usualMen: readonly Int32Array[];
  /** Last day of the book. */
  readonly lastDay: number;
  readonly settings: BallSettings;
}

export function preparePlans(data: PlanData): PlanGrounds {
  const { table } = data;
  const grounders = selectGrounders(table);
  const air = selectAirBalls(table);
  const balls = collectSeenBalls(grounders, air, data.air === null ? null : projectFlights(air, data.air.carry));
  const bySide: number[][] = SIDES.map(() => []);
  balls.row.forEach((row, k) => {
    bySide[table.batterSide[row]].push(k);
  });
  const runner = runnerTimes(table, grounders.batterToFirstS, grounders.row);
  return {
    data,
    balls,
    sides: bySide.map((numbers) => prepareLeagueSide(balls, numbers)),
    ofBatter: groupBy(balls, table.batter),
    ofPitcher: groupBy(balls, table.pitcher),
    usual: gatherUsualStarts(table),
    ...runner,
    usualMen: table.teams.map((_, team) => mostSeen(table, team)),
    lastDay: table.date.reduce((last, day) => Math.max(last, day), 0),
    settings: data.settings ?? BALL_SETTINGS,
  };
}

function groupBy(balls: SeenBalls, person: Int32Array): Map<number, number[]> {
  const groups = new Map<number, number[]>();
  balls.row.forEach((row, k) => {
    const list = groups.get(person[row]);
    if (list === undefined) groups.set(person[row], [k]);
    else list.push(k);
  });
  return groups;
}

/** Mean recorded time of each batter; by side the mean over grounders, where a missing one is already filled in. */
function runnerTimes(table: PlayTable, filledIn: Float64Array, rows: Int32Array) {
  const sum = new Float64Array(table.people.length);
  const n = new Float64Array(table.people.length);
  for (let row = 0; row < table.count; row += 1) {
    if (Number.isNaN(table.batterToFirstS[row]) || table.batter[row] < 0) continue;
    sum[table.batter[row]] += table.batterToFirstS[row];
    n[table.batter[row]] += 1;
  }
  const sideSum = [0, 0];
  const sideN = [0, 0];
  rows.forEach((row, at) => {
    sideSum[table.batterSide[row]] += filledIn[at];
    sideN[table.batterSide[row]] += 1;
  });
  const all = (sideSum[0] + sideSum[1]) / (sideN[0] + sideN[1]);
  return {
    runnerS: sum.map((each, k) => each / n[k]),
    sideRunnerS: sideSum.map((each, k) => (sideN[k] > 0 ? each / sideN[k] : all)),
  };
}

function mostSeen(table: PlayTable, team: number): Int32Array {
  let season = 0;
  for (let row = 0; row < table.count; row += 1)
    if (table.fieldingTeam[row] === team) season = Math.max(season, table.season[row]);
  const plays = Array.from({ length: NINE }, () => new Map<number, number>());
  for (let row = 0; row < table.count; row += 1) {
    if (table.fieldingTeam[row] !== team || table.season[row] !== season) continue;
    for (let k = 0; k < NINE; k += 1) {
      const who = table.fielder[row * NINE + k];
      if (who >= 0) plays[k].set(who, (plays[k].get(who) ?? 0) + 1);
    }
  }
  const men = new Int32Array(NINE).fill(-1);
  const claims = plays.flatMap((counts, k) => [...counts].map(([who, n]) => ({ k, who, n })));
  claims.sort((a, b) => b.n - a.n || a.k - b.k || a.who - b.who);
  // Nobody plays twice: who was seen most often at a position has it first.
  for (const { k, who } of claims) if (men[k] < 0 && !men.includes(who)) men[k] = who;
  return men;
}

/** Stake in runs of balls to come in a base-out state, in the book's run mode. */
export function stakesOfBalls({ data }: PlanGrounds, balls: BallColumns, state: number): Float64Array {
  const table = {
    ...allocatePlayTable(balls.count),
    ballKind: balls.kind,
    bearingDeg: balls.bearingDeg,
    exitSpeedMph: balls.exitSpeedMph,
  };
  table.outsBefore.fill(state >> 3);
  table.bases.fill(state & 7);
  return stakes(table, Int32Array.from(balls.kind.keys()), data.runs.mode, data.runs.models);
}
