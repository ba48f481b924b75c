/**
 * Chances of many men at one skill: a row for each chance, with what the league's surface says of it and what came of it.
 * Columns have length `count`.
 */
export interface SkillRows {
  readonly count: number;
  /** Index into the table's people; rows of unknown men are not kept. */
  readonly man: Int32Array;
  readonly season: Int32Array;
  /** Index into the table's games. */
  readonly game: Int32Array;
  /** 1 to 9. */
  readonly position: Uint8Array;
  /** Code of DIRECTIONS (directions.ts). */
  readonly direction: Uint8Array;
  /** What the league's surface gives an average man, on the logit scale. */
  readonly logit: Float64Array;
  /** 1 when he did it. */
  readonly outcome: Uint8Array;
  /** What doing it is worth there, outs: for a gather, its promise less what is left behind him; for a finish, 1. */
  readonly worth: Float64Array;
  /** What it came to more than that, outs: with the ball in hand, its gathered mark less its promise. */
  readonly surplus: Float64Array;
}

export interface SkillRow {
  readonly man: number;
  readonly season: number;
  readonly game: number;
  readonly position: number;
  readonly direction: number;
  readonly logit: number;
  readonly outcome: number;
  readonly worth: number;
  readonly surplus: number;
}

/** Skill rows while they are collected. */
export class SkillRowList {
  private capacity = 1024;
  private count = 0;
  private columns = allocateColumns(this.capacity);

  add(row: SkillRow): void {
    if (this.count === this.capacity) this.grow();
    const { columns, count } = this;
    columns.man[count] = row.man;
    columns.season[count] = row.season;
    columns.game[count] = row.game;
    columns.position[count] = row.position;
    columns.direction[count] = row.direction;
    columns.logit[count] = row.logit;
    columns.outcome[count] = row.outcome;
    columns.worth[count] = row.worth;
    columns.surplus[count] = row.surplus;
    this.count += 1;
  }

  rows(): SkillRows {
    const { columns, count } = this;
    return {
      count,
      man: columns.man.slice(0, count),
      season: columns.season.slice(0, count),
      game: columns.game.slice(0, count),
      position: columns.position.slice(0, count),
      direction: columns.direction.slice(0, count),
      logit: columns.logit.slice(0, count),
      outcome: columns.outcome.slice(0, count),
      worth: columns.worth.slice(0, count),
      surplus: columns.surplus.slice(0, count),
    };
  }

  private grow(): void {
    this.capacity *= 2;
    const grown = allocateColumns(this.capacity);
    for (const name of Object.keys(grown) as (keyof typeof grown)[]) grown[name].set(this.columns[name]);
    this.columns = grown;
  }
}

function allocateColumns(capacity: number) {
  return {
    man: new Int32Array(capacity),
    season: new Int32Array(capacity),
    game: new Int32Array(capacity),
    position: new Uint8Array(capacity),
    direction: new Uint8Array(capacity),
    logit: new Float64Array(capacity),
    outcome: new Uint8Array(capacity),
    worth: new Float64Array(capacity),
    surplus: new Float64Array(capacity),
  };
}
