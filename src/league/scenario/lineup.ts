import type { Random } from '../../numeric/random.ts';
import { BENCH, type Club } from './club.ts';
import type { Person } from './person.ts';

/** Share of games in which a regular plays at his own position. */
const REGULAR_SHARE = 0.76;

/** Who starts a game: men by position (index 2 to 9; the pitcher is set apart) and the batting order of nine. */
export interface Lineup {
  readonly field: Person[];
  readonly order: Person[];
}

/** Draws a lineup; nobody plays twice, and the ninth bat is a man of the bench who does not field. */
export function drawLineup(club: Club, random: Random): Lineup {
  const field: Person[] = [];
  const used = new Set<Person>();
  for (const position of shuffled([2, 3, 4, 5, 6, 7, 8, 9], random)) {
    const regular = club.hitters[position - 2]!;
    const fill = BENCH.map(({ covers }, k) => ({ person: club.hitters[8 + k]!, rank: covers.indexOf(position) }))
      .filter(({ person, rank }) => rank >= 0 && !used.has(person))
      .sort((a, b) => a.rank - b.rank);
    const bench = fill.length > 1 && random.next() < 0.3 ? fill[1] : fill[0];
    const chosen = bench !== undefined && random.next() >= REGULAR_SHARE ? bench.person : regular;
    used.add(chosen);
    field[position] = chosen;
  }
  const spare = club.hitters.filter((person) => !used.has(person));
  const order = [...field.slice(2), spare[random.integer(spare.length)]!];
  return { field, order: shuffled(order, random) };
}

export function shuffled<T>(items: readonly T[], random: Random): T[] {
  const result = [...items];
  for (let i = result.length - 1; i > 0; i -= 1) {
    const j = random.integer(i + 1);
    [result[i], result[j]] = [result[j]!, result[i]!];
  }
  return result;
}
