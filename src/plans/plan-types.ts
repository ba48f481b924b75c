import type { Side } from '../diamond/play-codes.ts';
import type { PlanDepth, PlanRule } from './spot-limits.ts';

/** What a plan is asked for. Persons and clubs by their ids. */
export interface PlanQuestion {
  readonly batter: string;
  readonly defence: string;
  /** The side that he bats from; when left out, the one from which more of his balls were seen. */
  readonly side?: Side | undefined;
  /** 0 to 2. */
  readonly outs: number;
  /** Bits ON_FIRST, ON_SECOND, ON_THIRD. */
  readonly bases: number;
  readonly rule: PlanRule;
  /** When left out: double-play depth with a runner on first and fewer than two out, else as usual. */
  readonly depth?: PlanDepth | undefined;
  /** Whether the first baseman holds the runner on first; when left out, he does if second base is empty. */
  readonly hold?: boolean | undefined;
  /** Three outfielders are placed as well. */
  readonly outfield?: boolean | undefined;
  /** Men may stand where nobody at their position was seen. */
  readonly anywhere?: boolean | undefined;
  /** Reckon with what the men of the club are rated, not with average men. */
  readonly ownMen?: boolean | undefined;
  /** Who plays instead of the club's usual man, by position; brings own men with it. */
  readonly swap?: ReadonlyMap<number, string> | undefined;
  /** A pitcher whose balls lean the batter's toward what he usually gives up. */
  readonly pitcher?: string | undefined;
  /** Seconds below which a man is warned to stand too near; 0.4 unless told. */
  readonly safeS?: number | undefined;
  readonly seed?: number | undefined;
}

/** One man's start of a plan; names and order are those of the answer in JSON. */
export interface PlannedStart {
  readonly position: number;
  readonly fielder_id: string | null;
  readonly start_x_ft: number;
  readonly start_y_ft: number;
  readonly even_x_ft: number;
  readonly even_y_ft: number;
  readonly own_x_ft: number;
  readonly own_y_ft: number;
}

export interface PlanAmounts {
  readonly plan: number;
  readonly even: number;
  readonly own: number;
}

export interface Interval80 {
  readonly value: number;
  readonly lo80: number;
  readonly hi80: number;
}

/** What another man at a position would change; both defences at their own best starts. */
export interface SwapGain {
  readonly position: number;
  readonly fielder_id: string;
  readonly instead_of: string | null;
  readonly gain_runs_per_100: Interval80;
}

/** A plan as `leatherbook plan --format json` answers it. Runs are those above every ball being an out. */
export interface Plan {
  readonly batter: string;
  readonly side: Side;
  readonly defence: string;
  readonly outs: number;
  /** `---`, `1--` to `123`. */
  readonly runners: string;
  readonly rule: PlanRule;
  /** Balls of this batter from this side that were seen. */
  readonly balls: number;
  readonly starts: readonly PlannedStart[];
  readonly outs_per_100: PlanAmounts;
  readonly runs_per_100: PlanAmounts;
  /** Against the even spots. */
  readonly gain_runs_per_100: Interval80;
  /** What each man costs who starts that far from his spot, whatever way: the mean of eight. */
  readonly cost_of_error: readonly {
    readonly position: number;
    readonly feet: number;
    readonly runs_per_100: number;
  }[];
  readonly warnings: readonly string[];
  /** Only when a swap was asked for. */
  readonly swap?: readonly SwapGain[];
}

/** Occupied bases in three characters: `---`, `1--`, `-2-` to `123`. */
export function runnersText(bases: number): string {
  return ['1', '2', '3'].map((name, k) => ((bases >> k) & 1 ? name : '-')).join('');
}

/** Bits of the bases in a text such as `1-3`, `13`, `-2-` or `none`; null for anything else. */
export function parseRunners(text: string): number | null {
  if (text === 'none') return 0;
  const digits = text.replaceAll('-', '');
  if (!/^[-123]{1,5}$/.test(text) || !/^1?2?3?$/.test(digits)) return null;
  return [...digits].reduce((bits, digit) => bits | (1 << (Number(digit) - 1)), 0);
}
