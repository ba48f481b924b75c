import type { Book } from '../../book/open-book.ts';
import { quoteText } from '../../book/sql-text.ts';
import { AirChances } from '../../chances/air/air-chances.ts';
import type { ClassPlays } from '../../chances/class-plays.ts';
import { FULL } from '../../chances/grades.ts';
import { GrounderChances } from '../../chances/grounder-chances.ts';
import { POSITION_COUNT, SIDES } from '../../diamond/play-codes.ts';
import { type MovedMan, MovedMarks } from '../../ledger/moved-marks.ts';
import { type MovedGain, sumMovedGains } from '../../ratings/moved-room.ts';
import { drawPoissonWeights } from '../../ratings/poisson-weights.ts';
import { type BuildFile, unpackBuild } from '../build-file.ts';
import type { PlanInputs } from '../plan-inputs.ts';
import { roomRows } from '../results/room-table.ts';
import { type BookPlays, selectPlays } from '../score-book.ts';
import type { KeptPlan } from './plan-tables.ts';

/** Planned men by batter, side and base-out state. */
type Planned = ReadonlyMap<string, readonly MovedMan[]>;

const keyOf = (batter: string, side: string, state: number) => `${state} ${side} ${batter}`;

/**
 * Puts into table room_to_gain what a club would have gained with its planned starts, in the place of what stood there for it:
 * over every play of grade `full` against a batter and in a situation of these plans the set mark with the planned starts less the one that was, everything
 * else the same; for the club with all moved, for each man with him alone.
 */
export async function keepPlannedRoom(
  book: Book,
  inputs: PlanInputs,
  plans: readonly KeptPlan[],
  defence: string,
  names: ReadonlyMap<string, string>,
): Promise<void> {
  const { table, files, settings } = inputs;
  const build = await unpackBuild(async (name) => files[name]!);
  const stakes = await readStakes(book, defence);
  const planned: Planned = new Map(
    plans.map(({ question: { batter, side, outs, bases }, plan }) => [
      keyOf(batter, side, outs * 8 + bases),
      plan.starts.map((start) => ({ position: start.position, xFt: start.start_x_ft, yFt: start.start_y_ft })),
    ]),
  );
  const replicates = Number(settings.replicates ?? 0);
  const weights = replicates > 0 ? drawPoissonWeights(table.games, replicates, Number(settings.seed)) : null;
  const gains = gainsOf(selectPlays(table), build, table.teams.indexOf(defence), planned, stakes);
  const rows = roomRows(table, sumMovedGains(gains, weights), names, 'planned');
  await book.store.transaction(async () => {
    await book.store.run(`DELETE FROM room_to_gain WHERE against = 'planned' AND team = ${quoteText(defence)}`);
    await book.store.append('room_to_gain', rows);
  });
}

/** Runs that an out is worth, by play. */
async function readStakes({ store }: Book, defence: string): Promise<Map<string, number>> {
  const { columns } = await store.query(
    `SELECT play_id, stake_runs FROM marks JOIN plays USING (play_id) WHERE fielding_team = ${quoteText(defence)}`,
  );
  const [ids, runs] = columns.map(({ values }) => values) as [string[], Float64Array];
  return new Map(ids.map((id, at) => [id, runs[at]!]));
}

function* gainsOf(
  { grounders, air }: BookPlays,
  build: BuildFile,
  team: number,
  planned: Planned,
  stakes: ReadonlyMap<string, number>,
): Generator<MovedGain> {
  const { models } = build;
  if (models.grounders !== null) {
    const marks = new MovedMarks(grounders, new GrounderChances(grounders, models.grounders));
    yield* classGains(grounders, marks, build, team, planned, stakes);
  }
  if (models.air !== null) {
    const marks = new MovedMarks(air, new AirChances(air, models.air));
    yield* classGains(air, marks, build, team, planned, stakes);
  }
}

function* classGains(
  plays: ClassPlays,
  marks: MovedMarks,
  { groups }: BuildFile,
  team: number,
  planned: Planned,
  stakes: ReadonlyMap<string, number>,
): Generator<MovedGain> {
  const { table } = plays;
  const odds = new Map(
    groups.filter(({ grade }) => grade === FULL).map(({ season, kind, set }) => [`${season} ${kind}`, Math.exp(set)]),
  );
  for (let at = 0; at < plays.count; at += 1) {
    const row = plays.row[at]!;
    if (table.fieldingTeam[row] !== team || plays.grade[at] !== FULL || table.batter[row]! < 0) continue;
    const side = SIDES[table.batterSide[row]!]!;
    const moved = planned.get(keyOf(table.people[table.batter[row]!]!, side, plays.state[at]!));
    const stake = stakes.get(table.playId[row]!);
    const season = plays.season[at]!;
    const setOdds = odds.get(`${season} ${table.ballKind[row]}`);
    if (moved === undefined || stake === undefined || setOdds === undefined) continue;
    const there = marks.mark(at, setOdds, []);
    const gain = (men: readonly MovedMan[]) => {
      const outs = marks.mark(at, setOdds, men) - there;
      return { season, team, game: table.game[row]!, outs, runs: outs * stake };
    };
    yield { fielder: null, position: null, ...gain(moved) };
    for (const man of moved) {
      const fielder = table.fielder[row * POSITION_COUNT + man.position - 1]!;
      if (fielder >= 0) yield { fielder, position: man.position, ...gain([man]) };
    }
  }
}
