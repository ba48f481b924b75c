import type { Plan } from './plan-types.ts';

export const OUTS_WORDS = ['nobody out', 'one out', 'two out'] as const;

/** Words for the bases in `runners`. */
export function sayRunners(runners: string): string {
  const names = ['first', 'second', 'third'].filter((_, k) => runners[k] !== '-');
  if (names.length === 0) return 'nobody on';
  if (names.length === 3) return 'bases loaded';
  return `runner${names.length > 1 ? 's' : ''} on ${names.join(' and ')}`;
}

/** How many runs a plan gains, with its interval. */
export function sayGain({ gain_runs_per_100: { value, lo80, hi80 } }: Pick<Plan, 'gain_runs_per_100'>): string {
  return `${signed(value)} runs per 100 balls against the even spots (80 %: ${signed(lo80)} to ${signed(hi80)})`;
}

export function signed(value: number): string {
  const text = value.toFixed(1);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text.replace(/^-(0\.0)$/, '$1');
}
