import { brokenLimits, leavesFirstOpen } from '../../../src/plans/broken-limits.ts';
import type { CardPlan } from '../../../src/plans/card/card-words.ts';
import type { PlanModels } from '../../../src/plans/chance-board.ts';
import { SAFE_S, sayTooNear } from '../../../src/plans/least-time.ts';
import type { PlanCase } from '../../../src/plans/plan-case.ts';
import type { Plan } from '../../../src/plans/plan-types.ts';
import { type StartsWorth, WhatIfPlan } from '../../../src/plans/what-if-plan.ts';
import { type Moves, tenths } from '../../state/moves-address.ts';

type Spot = readonly [xFt: number, yFt: number];

/** One question with the starts that are tried: from the club's own, or from a plan, some men moved. */
export class PlanTrial {
  readonly planCase: PlanCase;
  readonly whatIf: WhatIfPlan;
  readonly evenWorth: StartsWorth;
  readonly ownWorth: StartsWorth;
  #moves = $state.raw<Moves>(new Map());
  #plan = $state.raw<Plan | null>(null);
  #planWorth = $state.raw<StartsWorth | null>(null);
  readonly #times = new Map<string, number>();
  readonly worth: StartsWorth = $derived.by(() => this.whatIf.worth(this.starts));
  readonly warnings: readonly string[] = $derived.by(() => this.#findWarnings());

  constructor(models: PlanModels, planCase: PlanCase, moves: Moves) {
    this.planCase = planCase;
    this.whatIf = new WhatIfPlan(models, planCase);
    this.evenWorth = this.whatIf.worth(planCase.even);
    this.ownWorth = this.whatIf.worth(planCase.own);
    this.#moves = moves;
  }

  get plan(): Plan | null {
    return this.#plan;
  }

  /** What the plan is worth, by this page's own reckoning. */
  get planWorth(): StartsWorth | null {
    return this.#planWorth;
  }

  /** Men who are not where the plan, or without one the club, has them. */
  get moves(): Moves {
    return this.#moves;
  }

  /** x and y of all nine. */
  get starts(): Float64Array {
    const starts = Float64Array.from(this.planCase.own);
    for (const position of this.planCase.movers) starts.set(this.spot(position), 2 * position - 2);
    return starts;
  }

  /** Where a man is now. */
  spot(position: number): Spot {
    return this.#moves.get(position) ?? this.base(position);
  }

  /** Where he is put back to. */
  base(position: number): Spot {
    return this.planned(position) ?? this.own(position);
  }

  planned(position: number): Spot | undefined {
    const start = this.#plan?.starts.find((each) => each.position === position);
    return start && [start.start_x_ft, start.start_y_ft];
  }

  even(position: number): Spot {
    return pairOf(this.planCase.even, position);
  }

  own(position: number): Spot {
    return pairOf(this.planCase.own, position);
  }

  takePlan(plan: Plan, moves: Moves = new Map()): void {
    const starts = Float64Array.from(this.planCase.own);
    for (const { position, start_x_ft, start_y_ft } of plan.starts)
      starts.set([start_x_ft, start_y_ft], 2 * position - 2);
    this.#planWorth = this.whatIf.worth(starts);
    this.#plan = plan;
    this.#moves = moves;
  }

  move(position: number, xFt: number, yFt: number): void {
    this.#moves = new Map(this.#moves).set(position, [tenths(xFt), tenths(yFt)]);
  }

  /** Puts everybody to `spotOf` his position. */
  moveAll(spotOf: (position: number) => Spot): void {
    this.#moves = new Map(
      this.planCase.movers.map((position) => {
        const [x, y] = spotOf(position);
        return [position, [tenths(x), tenths(y)]] as const;
      }),
    );
  }

  putBack(position: number): void {
    const moves = new Map(this.#moves);
    moves.delete(position);
    this.#moves = moves;
  }

  reset(): void {
    this.#moves = new Map();
  }

  /** The pocket card of the starts as they are now. */
  card(batter: string, defence: string): CardPlan {
    const { side, outs, runners, rule, movers, men } = this.planCase;
    return {
      batter,
      side,
      defence,
      outs,
      runners,
      rule,
      balls: this.whatIf.seen.count,
      starts: movers.map((position) => {
        const [[x, y], [evenX, evenY]] = [this.spot(position), this.even(position)];
        return {
          position,
          fielder_id: men[position - 1] ?? null,
          start_x_ft: tenths(x),
          start_y_ft: tenths(y),
          even_x_ft: tenths(evenX),
          even_y_ft: tenths(evenY),
        };
      }),
      gain_runs_per_100: this.worth.gainOnEven,
      warnings: this.warnings,
    };
  }

  #findWarnings(): string[] {
    if (this.#plan !== null && this.#moves.size === 0) return [...this.#plan.warnings];
    const { planCase, whatIf } = this;
    const warnings = [...planCase.warnings];
    for (const position of planCase.movers) {
      const [x, y] = this.spot(position);
      if (this.#moves.has(position))
        for (const broken of brokenLimits(whatIf.limits, position, x, y))
          warnings.push(`Position ${position}: ${broken}.`);
      const time = this.#leastTime(position, x, y);
      if (time < SAFE_S) warnings.push(sayTooNear(position, time, SAFE_S));
    }
    if (leavesFirstOpen(whatIf.limits, planCase.movers, this.starts))
      warnings.push('Nobody is near enough to first base to take a throw there in time.');
    return warnings;
  }

  /** Asked again and again of men who have not moved. */
  #leastTime(position: number, xFt: number, yFt: number): number {
    const key = `${position} ${xFt} ${yFt}`;
    let time = this.#times.get(key);
    if (time === undefined) {
      time = this.whatIf.leastTimeS(xFt, yFt);
      this.#times.set(key, time);
    }
    return time;
  }
}

function pairOf(starts: readonly number[], position: number): Spot {
  return [starts[2 * position - 2]!, starts[2 * position - 1]!];
}
