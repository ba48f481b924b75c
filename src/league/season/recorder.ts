import { allocatePlayTable, type PlayTableDraft } from '../../chances/play-table.ts';
import type { BallPath, Launch } from '../physics/ball-path.ts';
import { STEP_S } from '../physics/ball-path.ts';
import type { Outcome, Situation } from '../physics/situation.ts';
import type { Person } from '../scenario/person.ts';
import { allocateBalls, type TruthBalls } from '../truth/league-truth.ts';

/** Numbers are recorded as a careful crew would: tenths of a mile an hour, a degree, a foot; hundredths of a second. */
const TENTHS = 10;
const HUNDREDTHS = 100;
const round = (value: number, parts: number) => Math.round(value * parts) / parts;

/** What the recorder has to know beyond the ball. */
export interface PlayContext {
  readonly season: number;
  /** Whether the season is played under the two-a-side rule. */
  readonly twoASide: boolean;
  /** Index into the table's games. */
  readonly game: number;
  readonly gameId: string;
  readonly day: number;
  readonly park: number;
  readonly surface: number;
  readonly inning: number;
  readonly batting: number;
  readonly fielding: number;
}

/** Two tables that grow side by side: what the demo league's watchers saw, and the truth. */
export class Recorder {
  readonly plays: PlayTableDraft;
  readonly balls: TruthBalls;
  readonly capacity: number;
  count = 0;

  constructor(capacity: number) {
    this.capacity = capacity;
    this.plays = allocatePlayTable(capacity);
    this.balls = allocateBalls(capacity);
  }

  /** Writes one play as it was seen and as it was; runs are filled in by the inning. */
  record(
    context: PlayContext,
    number: number,
    situation: Situation,
    batter: Person,
    runners: readonly (Person | null)[],
    men: readonly Person[],
    starts: Float64Array,
    launch: Launch,
    path: BallPath,
    outcome: Outcome,
  ): number {
    const row = this.count;
    this.count += 1;
    const { plays, balls } = this;
    plays.playId[row] = `${context.gameId}-${String(number).padStart(3, '0')}`;
    plays.game[row] = context.game;
    plays.season[row] = context.season;
    plays.date[row] = context.day;
    plays.park[row] = context.park;
    plays.surface[row] = context.surface;
    plays.inning[row] = context.inning;
    plays.outsBefore[row] = situation.outs;
    plays.bases[row] = situation.bases;
    plays.battingTeam[row] = context.batting;
    plays.fieldingTeam[row] = context.fielding;
    plays.batter[row] = batter.index;
    plays.pitcher[row] = men[1]!.index;
    plays.batterSide[row] = batter.batsLeft ? 0 : 1;
    plays.ballKind[row] = situation.kind;
    plays.batterToFirstS[row] = batter.homeToFirstS;
    this.seen(row, launch, path, outcome);
    balls.exitSpeedMph[row] = launch.exitSpeedMph;
    balls.launchAngleDeg[row] = launch.launchAngleDeg;
    balls.bearingDeg[row] = launch.bearingDeg;
    balls.kickDeg[row] = launch.kickDeg;
    balls.hop[row] = launch.hop;
    balls.surface[row] = context.surface;
    balls.kind[row] = situation.kind;
    balls.outs[row] = situation.outs;
    balls.bases[row] = situation.bases;
    balls.batter[row] = batter.index;
    for (let base = 1; base <= 3; base += 1) balls.runners[row * 3 + base - 1] = runners[base]?.index ?? -1;
    for (let p = 1; p <= 9; p += 1) {
      const at = row * 9 + p - 1;
      balls.fielders[at] = men[p]!.index;
      balls.startXFt[at] = starts[2 * p - 2]!;
      balls.startYFt[at] = starts[2 * p - 1]!;
      plays.fielder[at] = men[p]!.index;
      plays.startXFt[at] = round(starts[2 * p - 2]!, TENTHS);
      plays.startYFt[at] = round(starts[2 * p - 1]!, TENTHS);
    }
    return row;
  }

  private seen(row: number, launch: Launch, path: BallPath, outcome: Outcome): void {
    const { plays } = this;
    plays.exitSpeedMph[row] = round(launch.exitSpeedMph, TENTHS);
    plays.launchAngleDeg[row] = round(launch.launchAngleDeg, TENTHS);
    plays.bearingDeg[row] = round(launch.bearingDeg, TENTHS);
    const inAir = plays.ballKind[row]! > 0 && plays.ballKind[row]! < 4;
    if (inAir) {
      const caught = outcome.outsMade > 0 && outcome.gatherTimeS < path.landing * STEP_S;
      const landing = Math.min(path.landing, path.steps - 1);
      plays.landingXFt[row] = round(caught ? outcome.gatherXFt : path.x[landing]!, TENTHS);
      plays.landingYFt[row] = round(caught ? outcome.gatherYFt : path.y[landing]!, TENTHS);
      plays.hangTimeS[row] = round(caught ? outcome.gatherTimeS : landing * STEP_S, HUNDREDTHS);
    }
    plays.touchedBy[row] = outcome.touchedBy;
    plays.gatheredBy[row] = outcome.gatheredBy;
    plays.gatherXFt[row] = round(outcome.gatherXFt, TENTHS);
    plays.gatherYFt[row] = round(outcome.gatherYFt, TENTHS);
    plays.gatherTimeS[row] = round(outcome.gatherTimeS, HUNDREDTHS);
    plays.throwTo[row] = outcome.throwTo;
    plays.outsMade[row] = outcome.outsMade;
    plays.result[row] = outcome.result;
  }
}
