/** Entries as growing columns: which play (its number among the plays scored), who, what kind, outs and runs. */
export class EntryList {
  private capacity: number;
  count = 0;
  play: Int32Array;
  position: Uint8Array;
  kind: Uint8Array;
  outs: Float64Array;
  runs: Float64Array;

  constructor(capacity: number) {
    this.capacity = Math.max(capacity, 16);
    this.play = new Int32Array(this.capacity);
    this.position = new Uint8Array(this.capacity);
    this.kind = new Uint8Array(this.capacity);
    this.outs = new Float64Array(this.capacity);
    this.runs = new Float64Array(this.capacity);
  }

  /** Adds an entry, worth `stakeRuns` an out; one of exactly no outs is no entry, so that a defender who was not involved has none. */
  add(play: number, position: number, kind: number, outs: number, stakeRuns: number): void {
    if (outs === 0) return;
    if (this.count === this.capacity) this.grow();
    this.play[this.count] = play;
    this.position[this.count] = position;
    this.kind[this.count] = kind;
    this.outs[this.count] = outs;
    this.runs[this.count] = outs * stakeRuns;
    this.count += 1;
  }

  private grow(): void {
    this.capacity *= 2;
    const grown = new EntryList(this.capacity);
    grown.play.set(this.play);
    grown.position.set(this.position);
    grown.kind.set(this.kind);
    grown.outs.set(this.outs);
    grown.runs.set(this.runs);
    this.play = grown.play;
    this.position = grown.position;
    this.kind = grown.kind;
    this.outs = grown.outs;
    this.runs = grown.runs;
  }
}
