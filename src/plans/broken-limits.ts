import { coversFirst, isAllowed, type SpotLimits } from './spot-limits.ts';

/** What of the limits of a plan a man at a spot would break, in words; empty for none. */
export function brokenLimits(limits: SpotLimits, position: number, xFt: number, yFt: number): string[] {
  const none: SpotLimits = { ...limits, rule: 'open', depth: 'usual', hold: false, seen: () => null };
  const breaks = (only: Partial<SpotLimits>) => !isAllowed({ ...none, ...only }, position, xFt, yFt);
  if (Math.abs(xFt) > yFt) return ['he stands in foul ground'];
  const broken: string[] = [];
  if (limits.seen(position) !== null && breaks({ seen: limits.seen }))
    broken.push('nobody at his position was seen there');
  // Without a region his part of the field bounds him; what else he breaks can only be told inside it.
  if (breaks({})) return broken.length > 0 ? broken : ['it is not in his part of the field'];
  if (breaks({ rule: limits.rule })) broken.push('the rule wants two a side of second base, on the infield');
  if (breaks({ hold: limits.hold })) broken.push('he does not hold the runner on first');
  if (breaks({ hold: limits.hold, depth: limits.depth }) && !breaks({ hold: limits.hold }))
    broken.push(limits.depth === 'in' ? 'he is not in' : 'he is not at double-play depth');
  return broken;
}

/** Whether none of the men at these starts (nine x, y pairs) is at first base in time for a throw. */
export function leavesFirstOpen(limits: SpotLimits, movers: readonly number[], starts: ArrayLike<number>): boolean {
  return !movers.some((position) =>
    coversFirst(starts[2 * position - 2], starts[2 * position - 1], limits.batterToFirstS),
  );
}
