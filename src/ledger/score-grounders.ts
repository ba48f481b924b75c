import { BallGame, COALITIONS, MOVABLE } from '../chances/ball-game.ts';
import { lastAtRisk } from '../chances/chance-rows.ts';
import { predictDirectOpening } from '../chances/direct-opening.ts';
import { chooseEvenDraws, type DrawSettings } from '../chances/even-draws.ts';
import { FULL, WHOLE } from '../chances/grades.ts';
import type { GrounderModels } from '../chances/grounder-models.ts';
import { type Grounders, INFIELD_SIZE } from '../chances/grounders.ts';

import { shiftByOdds } from '../numeric/logistic.ts';
import type { Progress } from '../progress.ts';
import { type Balance, balanceMarks, shiftedOpening } from './balance.ts';
import { FINISH, GROUND_ENTRY, PLACEMENT, REACH, WHOLE_ENTRY } from './entry-kinds.ts';
import { EntryList } from './entry-list.ts';
import { computeRawMarks, type RawMarks } from './raw-marks.ts';
import { bitCount, shapleyInto } from './shapley.ts';

/** All marks and entries of a book's grounders. Columns have the length of `grounders`, in its order. */
export interface GrounderLedger {
  readonly grounders: Grounders;
  readonly opening: Float64Array;
  readonly openingDirect: Float64Array;
  /** NaN below grade `full`. */
  readonly set: Float64Array;
  /** NaN for grade `whole`. */
  readonly gathered: Float64Array;
  readonly grade: Uint8Array;
  /** Bits of FLAGS. */
  readonly flags: Uint16Array;
  readonly entries: EntryList;
  readonly balance: Balance;
  /** count * 6: the chance h of positions 1 to 6 on plays of grade `full` on which the ball came to them; else 0. */
  readonly chance: Float64Array;
}

/** Scores every grounder (method.md 4 to 7, 9): marks, balanced by season and grade, and entries that add up to closed - opening. */
export function scoreGrounders(
  grounders: Grounders,
  models: GrounderModels,
  settings: DrawSettings,
  progress: Progress,
): GrounderLedger {
  const draws = chooseEvenDraws(grounders, settings);
  const openingDirect = predictDirectOpening(models.direct, grounders);
  const raw = computeRawMarks(grounders, models, draws, openingDirect, progress);
  const balance = balanceMarks(grounders, raw);
  const ledger = {
    grounders,
    opening: new Float64Array(grounders.count),
    openingDirect,
    set: new Float64Array(grounders.count).fill(Number.NaN),
    gathered: new Float64Array(grounders.count).fill(Number.NaN),
    grade: raw.grade,
    flags: grounders.flags.map((flags, at) => flags | draws.flags[at]),
    entries: new EntryList(grounders.count * 8),
    balance,
    chance: new Float64Array(grounders.count * INFIELD_SIZE),
  };
  const writer = new EntryWriter(ledger, raw, new BallGame(models, grounders, draws));
  progress.stage('entries', grounders.count);
  for (let at = 0; at < grounders.count; at += 1) {
    writer.write(at);
    if ((at & 1023) === 0) progress.advance(at);
  }
  progress.finish();
  return ledger;
}

/** Writes the marks and entries of one play after another. */
class EntryWriter {
  private readonly ledger: GrounderLedger;
  private readonly raw: RawMarks;
  private readonly game: BallGame;
  private readonly coalition = new Float64Array(COALITIONS);
  private readonly shapley = new Float64Array(MOVABLE.length);

  constructor(ledger: GrounderLedger, raw: RawMarks, game: BallGame) {
    this.ledger = ledger;
    this.raw = raw;
    this.game = game;
  }

  write(at: number): void {
    const { grounders, entries, gathered, opening } = this.ledger;
    const row = grounders.row[at];
    const closed = grounders.closed[at];
    const gatherer = grounders.table.gatheredBy[row];
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
      this.writePlacement(at, shifts.opening, shifts.set);
      this.writeReach(at, Math.exp(shifts.set), gatherer, grounders.table.touchedBy[row], hand);
    } else {
      opening[at] = shiftedOpening(this.raw, at, Math.exp(shifts.opening));
      this.share(at, GROUND_ENTRY, hand - opening[at]);
    }
    if (gatherer > 0) entries.add(at, gatherer, FINISH, closed - hand);
  }

  /** Shapley value of the movable infielders; also fixes the opening and set marks of the play. */
  private writePlacement(at: number, openingShift: number, setShift: number): void {
    const { game, coalition, ledger } = this;
    game.setActual(at);
    game.playCoalitions(at);
    const involved = game.involved === 0 ? COALITIONS - 1 : game.involved;
    const players = bitCount(involved);
    const { draws } = this.raw;
    for (let a = 0; a < COALITIONS; a += 1) {
      const share = bitCount(a & involved) / players;
      const odds = Math.exp(openingShift + (setShift - openingShift) * share);
      let sum = 0;
      for (let d = 0; d < draws; d += 1) sum += shiftByOdds(game.coalitionValue[d * COALITIONS + a], odds);
      coalition[a] = sum / draws;
    }
    ledger.opening[at] = coalition[0];
    ledger.set[at] = coalition[COALITIONS - 1];
    shapleyInto(coalition, MOVABLE.length, this.shapley);
    for (let b = 0; b < MOVABLE.length; b += 1) ledger.entries.add(at, MOVABLE[b] + 1, PLACEMENT, this.shapley[b]);
  }

  /**
   * Along the chance order: who missed gets the next man's mark less his own, who gathered gets the gathered mark less his
   * own, those after him nothing. Who touched the ball and lost it ended the play for those after him, so he bears all of it.
   */
  private writeReach(at: number, setOdds: number, gatherer: number, touchedBy: number, hand: number): void {
    const { game, ledger } = this;
    const last = lastAtRisk(gatherer, touchedBy);
    for (let k = 0; k < INFIELD_SIZE; k += 1) {
      const position = game.chanceOrder[k] + 1;
      ledger.chance[at * INFIELD_SIZE + position - 1] = game.reach[position - 1];
      const before = shiftByOdds(game.value[k], setOdds);
      if (position === last) {
        ledger.entries.add(at, position, REACH, hand - before);
        return;
      }
      const after = k + 1 === INFIELD_SIZE ? 0 : shiftByOdds(game.value[k + 1], setOdds);
      ledger.entries.add(at, position, REACH, after - before);
    }
    // Nobody in the infield had it: an outfielder who picked it up, or the man who touched it, begins from nothing.
    if (last > 0) ledger.entries.add(at, last, REACH, hand);
  }

  /** An entry that the data cannot divide, shared by the average chances. */
  private share(at: number, kind: number, outs: number): void {
    const { share } = this.raw;
    let total = 0;
    for (let k = 0; k < INFIELD_SIZE; k += 1) total += share[at * INFIELD_SIZE + k];
    for (let k = 0; k < INFIELD_SIZE; k += 1) {
      const part = total > 0 ? share[at * INFIELD_SIZE + k] / total : 1 / INFIELD_SIZE;
      this.ledger.entries.add(at, k + 1, kind, outs * part);
    }
  }
}
