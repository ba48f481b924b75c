import { BallGame } from '../chances/ball-game.ts';
import { lastAtRisk } from '../chances/chance-rows.ts';
import type { ClassPlays } from '../chances/class-plays.ts';
import type { DefenderChances } from '../chances/defender-chances.ts';
import { chooseEvenDraws, type DrawSettings } from '../chances/even-draws.ts';
import { FULL, WHOLE } from '../chances/grades.ts';
import { shiftByOdds } from '../numeric/logistic.ts';
import type { Progress } from '../progress.ts';
import { balanceMarks, type Shifts, shiftedOpening } from './balance.ts';
import type { ClassLedger } from './class-ledger.ts';
import { FINISH, GROUND_ENTRY, PLACEMENT, REACH, WHOLE_ENTRY } from './entry-kinds.ts';
import { EntryList } from './entry-list.ts';
import { PlacementShares } from './placement-shares.ts';
import { type ClassForecast, computeRawMarks, type RawMarks } from './raw-marks.ts';

/** What scoring needs of a class of plays besides the plays. */
export interface ClassScoring {
  readonly chances: DefenderChances;
  /** Indexes (position - 1) of the men who move with ball and batter. */
  readonly movable: readonly number[];
  readonly forecast: ClassForecast;
  /** Runs between a play being a hit and being an out. */
  readonly stakeRuns: Float64Array;
}

/** Scores every play of a class (method.md 4 to 7, 9): marks, balanced, and entries that add up to closed - opening. */
export function scorePlays(
  plays: ClassPlays,
  scoring: ClassScoring,
  settings: DrawSettings,
  progress: Progress,
): ClassLedger {
  const draws = chooseEvenDraws(plays, settings);
  const game = new BallGame(plays, scoring.chances, draws, scoring.movable);
  const raw = computeRawMarks(plays, game, draws, scoring.forecast, progress);
  const ledger = {
    plays,
    opening: new Float64Array(plays.count),
    openingDirect: scoring.forecast.direct,
    set: new Float64Array(plays.count).fill(Number.NaN),
    gathered: new Float64Array(plays.count).fill(Number.NaN),
    grade: raw.grade,
    flags: plays.flags.map((flags, at) => flags | draws.flags[at]),
    stakeRuns: scoring.stakeRuns,
    entries: new EntryList(plays.count * 8),
    balance: balanceMarks(plays, raw),
    chance: new Float64Array(plays.count * plays.men),
    room: new Float64Array(plays.count * plays.men),
  };
  const writer = new EntryWriter(ledger, raw, game);
  progress.stage('entries', plays.count);
  for (let at = 0; at < plays.count; at += 1) {
    writer.write(at);
    if ((at & 1023) === 0) progress.advance(at);
  }
  progress.finish();
  return ledger;
}

/** Writes the marks and entries of one play after another. */
class EntryWriter {
  private readonly ledger: ClassLedger;
  private readonly raw: RawMarks;
  private readonly game: BallGame;
  private readonly placement: PlacementShares;

  constructor(ledger: ClassLedger, raw: RawMarks, game: BallGame) {
    this.ledger = ledger;
    this.raw = raw;
    this.game = game;
    this.placement = new PlacementShares(game, raw.draws);
  }

  write(at: number): void {
    const { plays, gathered, opening } = this.ledger;
    const row = plays.row[at];
    const closed = plays.closed[at];
    const gatherer = plays.table.gatheredBy[row];
    const grade = this.raw.grade[at];
    const shifts = this.ledger.balance.groups[this.ledger.balance.groupOf[at]];
    if (grade === WHOLE) {
      opening[at] = shiftedOpening(this.raw, at, Math.exp(shifts.opening));
      this.share(at, WHOLE_ENTRY, closed - opening[at]);
      return;
    }
    const hand = shiftByOdds(this.raw.gathered[at], Math.exp(shifts.gathered));
    gathered[at] = hand;
    if (grade === FULL) {
      this.writePlacement(at, shifts);
      this.writeReach(at, Math.exp(shifts.set), gatherer, plays.table.touchedBy[row], hand);
    } else {
      opening[at] = shiftedOpening(this.raw, at, Math.exp(shifts.opening));
      this.share(at, GROUND_ENTRY, hand - opening[at]);
    }
    if (gatherer > 0) this.add(at, gatherer, FINISH, closed - hand);
  }

  private add(at: number, position: number, kind: number, outs: number): void {
    this.ledger.entries.add(at, position, kind, outs, this.ledger.stakeRuns[at]);
  }

  /** Shapley value of the men who move; also fixes the opening and set marks of the play. */
  private writePlacement(at: number, shifts: Shifts): void {
    const { placement, game, ledger } = this;
    placement.settle(at, shifts);
    ledger.opening[at] = placement.opening;
    ledger.set[at] = placement.set;
    for (let b = 0; b < game.playerCount; b += 1) {
      this.add(at, game.players[b] + 1, PLACEMENT, placement.outs[b]);
      ledger.room[at * ledger.plays.men + game.players[b]] = placement.room[b];
    }
  }

  /**
   * Along the chance order: who missed gets the next man's mark less his own, who gathered gets the gathered mark less his
   * own, those after him nothing. Who touched the ball and lost it ended the play for those after him, so he bears all of it.
   */
  private writeReach(at: number, setOdds: number, gatherer: number, touchedBy: number, hand: number): void {
    const { game, ledger } = this;
    const { men } = ledger.plays;
    const last = lastAtRisk(gatherer, touchedBy);
    for (let k = 0; k < men; k += 1) {
      const position = game.chanceOrder[k] + 1;
      ledger.chance[at * men + position - 1] = game.given[position - 1];
      const before = shiftByOdds(game.value[k], setOdds);
      if (position === last) {
        this.add(at, position, REACH, hand - before);
        return;
      }
      const after = k + 1 === men ? 0 : shiftByOdds(game.value[k + 1], setOdds);
      this.add(at, position, REACH, after - before);
    }
    // None of the men of this class had it: an outfielder who picked up a grounder begins from nothing.
    if (last > 0) this.add(at, last, REACH, hand);
  }

  /** An entry that the data cannot divide, shared by the average chances; by the movable men alike when there are none. */
  private share(at: number, kind: number, outs: number): void {
    const { men } = this.ledger.plays;
    const { movable } = this.game;
    let total = 0;
    for (let k = 0; k < men; k += 1) total += this.raw.share[at * men + k];
    if (total > 0) {
      for (let k = 0; k < men; k += 1) {
        this.add(at, k + 1, kind, outs * (this.raw.share[at * men + k] / total));
      }
    } else {
      for (const k of movable) this.add(at, k + 1, kind, outs / movable.length);
    }
  }
}
