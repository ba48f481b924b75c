import { OUTS_WORDS, sayGain, sayRunners } from '../say-plan.ts';
import { paceFromBag, paceFromEvenSpot } from './pacing.ts';
import type { DrawnStart } from './plan-drawing.ts';

/** What a pocket card shows of a plan; names and units as in its JSON. */
export interface CardPlan {
  readonly batter: string;
  readonly side: string;
  readonly defence: string;
  readonly outs: number;
  /** `---`, `1--` to `123`. */
  readonly runners: string;
  readonly rule: string;
  /** Balls of the batter that were seen. */
  readonly balls: number;
  readonly starts: readonly {
    readonly position: number;
    readonly fielder_id: string | null;
    readonly start_x_ft: number;
    readonly start_y_ft: number;
    readonly even_x_ft: number;
    readonly even_y_ft: number;
  }[];
  readonly gain_runs_per_100: { readonly value: number; readonly lo80: number; readonly hi80: number };
  readonly warnings: readonly string[];
}

/** The words of a pocket card. */
export interface CardWords {
  readonly title: string;
  readonly situation: string;
  readonly rule: string;
  /** A man each: his number, who he is, the way from his even spot, and the way from a bag. */
  readonly men: readonly {
    readonly position: number;
    readonly name: string;
    readonly fromEven: string;
    readonly fromBag: string;
  }[];
  readonly gain: string;
  readonly evidence: string;
  readonly warnings: readonly string[];
}

const SIDES: Readonly<Record<string, string>> = { L: 'left', R: 'right' };
const RULES: Readonly<Record<string, string>> = { 'two-a-side': 'two a side', open: 'open rule' };
const POSITION_NAMES = ['', 'Pitcher', 'Catcher', 'First', 'Second', 'Third', 'Short', 'Left', 'Centre', 'Right'];

/** Occupied bases, 1 to 3, of `1-3` and the like. */
export function basesOf(runners: string): number[] {
  return [1, 2, 3].filter((base) => runners.includes(String(base)));
}

/** @param names names by person id; who has none goes by the id */
export function cardWords(plan: CardPlan, names: ReadonlyMap<string, string>): CardWords {
  const nameOf = (id: string | null) => (id === null ? '' : (names.get(id) ?? id));
  return {
    title: nameOf(plan.batter),
    situation: `${capitalised(OUTS_WORDS[plan.outs]!)}, ${sayRunners(plan.runners)}`,
    rule: `bats ${SIDES[plan.side] ?? plan.side}, against ${plan.defence}, ${RULES[plan.rule] ?? plan.rule}`,
    men: plan.starts.map((start) => ({
      position: start.position,
      name: nameOf(start.fielder_id) || POSITION_NAMES[start.position]!,
      fromEven: paceFromEvenSpot(start.position, evenOf(start), startOf(start)),
      fromBag: paceFromBag(start.position, startOf(start)),
    })),
    gain: sayGain(plan),
    evidence: `${plan.balls} of his balls seen from this side`,
    warnings: plan.warnings,
  };
}

/** The men of a plan as the drawing wants them. */
export function drawnStarts(plan: CardPlan): DrawnStart[] {
  return plan.starts.map((start) => ({ position: start.position, start: startOf(start), even: evenOf(start) }));
}

type Start = CardPlan['starts'][number];
const startOf = (start: Start) => ({ x: start.start_x_ft, y: start.start_y_ft });
const evenOf = (start: Start) => ({ x: start.even_x_ft, y: start.even_y_ft });
const capitalised = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
