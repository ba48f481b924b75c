import { type ChanceBoard, NINE } from './chance-board.ts';
import { ChanceChain } from './chance-chain.ts';

/**
 * Set marks of a list of balls under one placement after another. Only men who moved since the last one are asked anew, so that
 * a start that is dragged costs a ninth of a whole placement. What came before changes no bit of what is answered.
 */
export class MovingMarks {
  private readonly board: ChanceBoard;
  private readonly starts = new Float64Array(2 * NINE).fill(Number.NaN);
  private readonly turn: Float64Array;
  private readonly reach: Float64Array;
  private readonly promise: Float64Array;
  private readonly marks: Float64Array;
  private readonly chain = new ChanceChain(NINE);

  constructor(board: ChanceBoard) {
    const { count } = board.balls;
    const column = () => new Float64Array(count * NINE);
    this.board = board;
    this.turn = column();
    this.reach = column();
    this.promise = column();
    this.marks = new Float64Array(count);
  }

  /** `starts` are nine (x, y) pairs. What is returned is filled anew by the next call. */
  at(starts: ArrayLike<number>): Float64Array {
    const { board, turn, reach, promise, chain, marks } = this;
    const moved = Array.from({ length: NINE }, (_, k) => k).filter(
      (k) => starts[2 * k] !== this.starts[2 * k] || starts[2 * k + 1] !== this.starts[2 * k + 1],
    );
    this.starts.set(starts);
    if (moved.length === 0) return marks;
    for (let at = 0; at < marks.length; at += 1) {
      const from = at * NINE;
      let isTaken = false;
      let isChanged = false;
      for (const k of moved) {
        const x = starts[2 * k];
        const y = starts[2 * k + 1];
        if (board.isBeyond(at, k, x, y)) {
          isChanged ||= reach[from + k] !== 0;
          reach[from + k] = 0;
          continue;
        }
        if (!isTaken && !board.setBall(at)) break;
        isTaken = true;
        isChanged = true;
        board.standAt(k, x, y);
        turn[from + k] = board.turn;
        reach[from + k] = board.reach;
        promise[from + k] = board.promise;
      }
      if (!isChanged) continue;
      chain.clear();
      for (let k = 0; k < NINE; k += 1) chain.add(turn[from + k], reach[from + k], promise[from + k]);
      marks[at] = chain.mark();
    }
    return marks;
  }
}
