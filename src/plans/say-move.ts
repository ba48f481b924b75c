/** A move in words of the trade, as seen from home: toward first or third, in or deeper; whole feet, `as even` for none. */
export function sayMove(fromXFt: number, fromYFt: number, toXFt: number, toYFt: number): string {
  const fromHome = Math.hypot(fromXFt, fromYFt) || 1;
  const [dx, dy] = [toXFt - fromXFt, toYFt - fromYFt];
  const across = Math.round((dx * fromYFt - dy * fromXFt) / fromHome);
  const deeper = Math.round((dx * fromXFt + dy * fromYFt) / fromHome);
  const parts: string[] = [];
  if (across !== 0) parts.push(`${Math.abs(across)} ft toward ${across > 0 ? 'first' : 'third'}`);
  if (deeper !== 0) parts.push(`${Math.abs(deeper)} ft ${deeper > 0 ? 'deeper' : 'in'}`);
  return parts.length === 0 ? 'no move' : parts.join(', ');
}
