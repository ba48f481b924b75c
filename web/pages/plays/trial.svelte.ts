import { type AreaEdge, traceArea } from '../../../src/chances/area-covered.ts';
import type { PlayCase } from '../../../src/ledger/play-case.ts';
import type { SetModels } from '../../../src/ledger/set-models.ts';
import { type Trial, type TriedMan, WhatIf } from '../../../src/ledger/what-if.ts';
import { type Moves, tenths } from '../../state/moves-address.ts';

const LEVELS = [0.1, 0.5, 0.9];
const GROUND_STEPS = { stepFt: 2, farthestFt: 60 } as const;
const AIR_STEPS = { stepFt: 4, farthestFt: 140 } as const;

/** One play that can be tried with other starts: what was moved, and what the marks say to it. */
export class TrialState {
  readonly playCase: PlayCase;
  readonly whatIf: WhatIf;
  /** As played, by the same code. */
  readonly own: Trial;
  #moves = $state.raw<Moves>(new Map());
  readonly trial: Trial = $derived.by(() => (this.#moves.size === 0 ? this.own : this.whatIf.try(this.starts)));

  constructor(models: SetModels, playCase: PlayCase, moves: Moves) {
    this.playCase = playCase;
    this.whatIf = new WhatIf(models, playCase);
    this.own = this.whatIf.try(playCase.starts);
    this.#moves = moves;
  }

  get moves(): Moves {
    return this.#moves;
  }

  get starts(): Float64Array {
    const starts = Float64Array.from(this.playCase.starts);
    for (const [position, spot] of this.#moves) starts.set(spot, (position - 1) * 2);
    return starts;
  }

  canMove(position: number): boolean {
    return this.playCase.movable.includes(position - 1);
  }

  move(position: number, xFt: number, yFt: number): void {
    this.#moves = new Map(this.#moves).set(position, [tenths(xFt), tenths(yFt)]);
  }

  moveAll(moves: Moves): void {
    this.#moves = moves;
  }

  putBack(position: number): void {
    const moves = new Map(this.#moves);
    moves.delete(position);
    this.#moves = moves;
  }

  reset(): void {
    this.#moves = new Map();
  }

  man(position: number): TriedMan | undefined {
    return this.trial.men.find((each) => each.position === position);
  }

  ownMan(position: number): TriedMan | undefined {
    return this.own.men.find((each) => each.position === position);
  }

  /** The area that the man of a position covers from where he stands now; empty for who has no part in such balls. */
  area(position: number): readonly AreaEdge[] {
    const man = this.man(position);
    if (man === undefined) return [];
    const { startXFt, startYFt } = man;
    const { stepFt, farthestFt } = this.playCase.ball.ballClass === 'ground' ? GROUND_STEPS : AIR_STEPS;
    const chanceAt = (x: number, y: number) => this.whatIf.cover(position, startXFt, startYFt, x, y);
    return traceArea(chanceAt, startXFt, startYFt, LEVELS, stepFt, farthestFt);
  }
}
