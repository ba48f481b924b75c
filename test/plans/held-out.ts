import type { PlayTable } from '../../src/chances/play-table.ts';
import { prepareLeagueSide } from '../../src/plans/batter-balls.ts';
import type { OneBatter } from '../../src/plans/choose-ball-settings.ts';
import type { SeenBalls } from '../../src/plans/seen-balls.ts';

/** About `batters` of a book's batters, evenly spaced, each with at most `most` of his balls and the league of his side. */
export function someBatters(table: PlayTable, balls: SeenBalls, batters: number, most: number): OneBatter[] {
  const ofBatter = new Map<number, number[]>();
  const bySide: number[][] = [[], []];
  balls.row.forEach((row, k) => {
    bySide[table.batterSide[row]!]!.push(k);
    const list = ofBatter.get(table.batter[row]!);
    if (list === undefined) ofBatter.set(table.batter[row]!, [k]);
    else list.push(k);
  });
  const sides = bySide.map((numbers) => prepareLeagueSide(balls, numbers));
  const lists = [...ofBatter].sort(([a], [b]) => a - b).map(([, numbers]) => numbers);
  const kept = lists.filter(({ length }) => length >= Math.min(most, 40));
  const every = Math.max(1, kept.length / batters);
  const chosen = Array.from({ length: Math.min(batters, kept.length) }, (_, k) => kept[Math.floor(k * every)]!);
  return chosen.map((numbers) => ({
    league: sides[table.batterSide[balls.row[numbers[0]!]!]!]!,
    numbers: numbers.filter((_, k) => k % Math.ceil(numbers.length / most) === 0),
  }));
}
