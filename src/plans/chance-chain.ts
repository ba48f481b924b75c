/** The men who have a chance of one ball, put into chance order as they come (method.md 4). Holds scratch space. */
export class ChanceChain {
  private readonly order: Int32Array;
  private readonly turn: Float64Array;
  private readonly reach: Float64Array;
  private readonly promise: Float64Array;
  private men = 0;

  constructor(most: number) {
    this.order = new Int32Array(most);
    this.turn = new Float64Array(most);
    this.reach = new Float64Array(most);
    this.promise = new Float64Array(most);
  }

  clear(): void {
    this.men = 0;
  }

  /** Of two whose turn is the same, the one added first is first. */
  add(turn: number, reach: number, promise: number): void {
    if (!(reach > 0)) return;
    const { order, men } = this;
    this.turn[men] = turn;
    this.reach[men] = reach;
    this.promise[men] = promise;
    let place = men;
    for (; place > 0 && this.turn[order[place - 1]] > turn; place -= 1) order[place] = order[place - 1];
    order[place] = men;
    this.men += 1;
  }

  /** Set mark of the ball. */
  mark(): number {
    let value = 0;
    for (let place = this.men - 1; place >= 0; place -= 1) {
      const k = this.order[place];
      value = this.reach[k] * this.promise[k] + (1 - this.reach[k]) * value;
    }
    return value;
  }
}
