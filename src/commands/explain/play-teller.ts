import type { Book } from '../../book/open-book.ts';
import { readNames, readPlayTable } from '../../book/read-play-table.ts';
import { readModelFile } from '../../book/replace-results.ts';
import type { Store } from '../../book/store.ts';
import type { ClassPlays } from '../../chances/class-plays.ts';
import { GRADES, type Grade, WHOLE } from '../../chances/grades.ts';
import { alignmentOf } from '../../chances/play-alignment.ts';
import { BALL_KINDS, BASES, RESULTS, SIDES } from '../../diamond/play-codes.ts';
import type { BalanceGroup } from '../../ledger/balance.ts';
import { dissectPlay } from '../../ledger/dissect-play.ts';
import { packPlayCase } from '../../ledger/play-case.ts';
import { isoDateOf } from '../../numeric/days.ts';
import { type BuildFile, unpackBuild } from '../build-file.ts';
import { type BookPlays, selectPlays } from '../score-book.ts';
import { type BallClass, type ClassTeller, tellerOf } from './class-teller.ts';
import type { Explanation, Lender } from './explanation.ts';
import { type PlacementMap, placementMap } from './placement-map.ts';
import { sceneOf } from './play-scene.ts';
import type { PlayStory } from './play-story.ts';
import { readStoredEntries, readStoredMarks, type StoredMarks } from './stored-results.ts';

/** A book's plays, models and names in memory, for one question after another. */
export class PlayTeller {
  private readonly dir: string;
  private readonly plays: BookPlays;
  private readonly build: BuildFile;
  private readonly names: ReadonlyMap<string, string>;
  private readonly tellers = new Map<BallClass, ClassTeller | null>();

  constructor(dir: string, plays: BookPlays, build: BuildFile, names: ReadonlyMap<string, string>) {
    this.dir = dir;
    this.plays = plays;
    this.build = build;
    this.names = names;
  }

  /**
   * Tells one play; `store` holds the tables marks, entries and plays of the same book.
   * @throws ExpectedFailure of kind `data` for a play that is not in the ledger
   */
  async tell(store: Store, playId: string): Promise<PlayStory> {
    const marks = await readStoredMarks(store, this.dir, playId);
    const { teller, at } = this.find(playId);
    const shifts = groupOf(this.build, teller.plays, marks.grade, at);
    const entries = await readStoredEntries(store, playId, (id) => this.nameOf(id));
    return {
      explanation: this.explain(teller, at, marks, shifts, entries),
      scene: sceneOf(this.plays.table, teller.plays.row[at], (id) => this.nameOf(id)),
      playCase:
        marks.grade === 'full'
          ? packPlayCase(
              teller.plays,
              at,
              teller.packBall(at),
              teller.movable,
              teller.draws,
              shifts,
              marks.numbers.stakeRuns,
            )
          : null,
    };
  }

  /** The starts of a man at a position: an infielder's on grounders, an outfielder's on balls in the air. */
  placementOf(fielderId: string, position: number, season: number): PlacementMap | null {
    const teller = this.tellerOf(position <= 6 ? 'ground' : 'air');
    return teller === null ? null : placementMap(teller, fielderId, position, season);
  }

  private tellerOf(ballClass: BallClass): ClassTeller | null {
    let teller = this.tellers.get(ballClass);
    if (teller === undefined) {
      teller = tellerOf(ballClass, this.plays, this.build);
      this.tellers.set(ballClass, teller);
    }
    return teller;
  }

  private find(playId: string): { readonly teller: ClassTeller; readonly at: number } {
    const { grounders, air, table } = this.plays;
    const row = table.playId.indexOf(playId);
    for (const [ballClass, plays] of [['ground', grounders] as const, ['air', air] as const]) {
      const at = plays.row.indexOf(row);
      const teller = at < 0 ? null : this.tellerOf(ballClass);
      if (teller !== null) return { teller, at };
    }
    throw new Error(`play ${playId} has marks and no models`);
  }

  private nameOf(id: string | null): string | null {
    return id === null ? null : (this.names.get(id) ?? id);
  }

  private explain(
    { plays, chances, movable, draws, finishOf }: ClassTeller,
    at: number,
    marks: StoredMarks,
    shifts: BalanceGroup,
    entries: Explanation['entries'],
  ): Explanation {
    const view = dissectPlay(plays, chances, movable, draws, shifts, at);
    const finish = marks.grade === GRADES[WHOLE] ? null : finishOf(at);
    const { table } = plays;
    const row = plays.row[at];
    const person = (index: number) => (index < 0 ? null : table.people[index]);
    const fielderAt = (position: number) => person(table.fielder[row * 9 + position - 1]);
    const gatherer = table.gatheredBy[row];
    return {
      playId: table.playId[row],
      ballKind: BALL_KINDS[table.ballKind[row]],
      date: isoDateOf(table.date[row]),
      inning: table.inning[row],
      outsBefore: table.outsBefore[row],
      bases: table.bases[row],
      battingTeam: table.teams[table.battingTeam[row]],
      fieldingTeam: table.teams[table.fieldingTeam[row]],
      batter: this.nameOf(person(table.batter[row])) ?? '',
      batterSide: SIDES[table.batterSide[row]],
      exitSpeedMph: table.exitSpeedMph[row],
      bearingDeg: plays.bearingDeg[at],
      launchAngleDeg: table.launchAngleDeg[row],
      batterToFirstS: table.batterToFirstS[row],
      result: RESULTS[table.result[row]],
      alignment: alignmentOf(table, row),
      grade: marks.grade,
      flags: marks.flags,
      marks: marks.numbers,
      opening: {
        low: view.openingLow,
        high: view.openingHigh,
        lenders: view.lenders.map((lender) => describeLender(plays, lender)),
      },
      defenders: view.defenders.map((defender) => {
        const fielderId = fielderAt(defender.position);
        return { ...defender, fielderId, name: this.nameOf(fielderId) };
      }),
      gather:
        finish === null
          ? null
          : {
              position: gatherer,
              name: this.nameOf(fielderAt(gatherer)),
              xFt: table.gatherXFt[row],
              yFt: table.gatherYFt[row],
              timeS: table.gatherTimeS[row],
              target: BASES[finish.target],
              targetRecorded: finish.targetRecorded,
              timeLeftS: finish.timeLeftS,
              throwFt: finish.throwFt,
            },
      touchedBy: table.touchedBy[row],
      entries,
    };
  }
}

/** Reads everything that telling plays needs. Throws ExpectedFailure of kind `book` for a book without a build. */
export async function readPlayTeller(book: Book): Promise<PlayTeller> {
  const build = await unpackBuild((name) => readModelFile(book, name));
  const plays = selectPlays(await readPlayTable(book));
  return new PlayTeller(book.dir, plays, build, await readNames(book));
}

function groupOf(build: BuildFile, plays: ClassPlays, grade: Grade, at: number): BalanceGroup {
  const gradeCode = GRADES.indexOf(grade);
  const kind = plays.table.ballKind[plays.row[at]];
  const group = build.groups.find(
    (each) => each.season === plays.season[at] && each.kind === kind && each.grade === gradeCode,
  );
  if (group === undefined) throw new Error(`no balance group for play ${plays.table.playId[plays.row[at]]}`);
  return group;
}

function describeLender(plays: ClassPlays, lender: number): Lender {
  const { table } = plays;
  const row = plays.row[lender];
  return {
    playId: table.playId[row],
    date: isoDateOf(table.date[row]),
    team: table.teams[table.fieldingTeam[row]],
    bearingDeg: plays.bearingDeg[lender],
  };
}
