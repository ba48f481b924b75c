import { positionOf, type SkillWindow } from './skill-window.ts';

/** Where each man of a window belongs, by man: the position of whose league's chances he had the largest share. */
export function homePositions(window: SkillWindow): Map<number, number> {
  const league = new Map<number, number>();
  const own = new Map<number, Map<number, number>>();
  for (const [facet, { men, league: part }] of window.facets) {
    const position = positionOf(facet);
    league.set(position, (league.get(position) ?? 0) + part.all.chances);
    for (const { man, all } of men) {
      const chances = own.get(man) ?? new Map<number, number>();
      chances.set(position, (chances.get(position) ?? 0) + all.chances);
      own.set(man, chances);
    }
  }
  return new Map(
    [...own].map(([man, chances]) => {
      const shares = [...chances].map(([position, his]) => ({ position, share: his / league.get(position)! }));
      return [man, shares.reduce((best, each) => (each.share > best.share ? each : best)).position];
    }),
  );
}
