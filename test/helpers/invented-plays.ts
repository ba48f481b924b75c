import { allocatePlayTable, type PlayTable } from '../../src/chances/play-table.ts';

/** A small linear congruential generator (constants from memory); test data need no better one. */
function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * Plays that mean nothing but keep to the contract, in canonical order: every column filled somewhere and, where the
 * contract allows it, empty somewhere. For tests of storage, not of baseball.
 */
export function inventedPlays(count: number, seed = 1): PlayTable {
  const random = generator(seed);
  const below = (limit: number) => Math.floor(random() * limit);
  const table = allocatePlayTable(count);
  const pad = (value: number, width: number) => String(value).padStart(width, '0');
  const numbered = (prefix: string, length: number, width: number) =>
    Array.from({ length }, (_, index) => `${prefix}${pad(index, width)}`);
  const seasonCount = 3;
  table.games = numbered('game', Math.max(1, Math.ceil(count / 50)), 6);
  table.parks = numbered('park', Math.min(12, Math.max(1, count)), 2);
  table.teams = numbered('team', 12, 2);
  table.people = numbered('person', 300, 3);
  const numberOrGap = (gap: number, low: number, high: number) =>
    random() < gap ? Number.NaN : low + random() * (high - low);
  for (let play = 0; play < count; play++) {
    const season = 2030 + Math.floor((play * seasonCount) / count);
    table.playId[play] = `play-${pad(play, 7)}`;
    table.game[play] = Math.floor(play / 50);
    table.season[play] = season;
    table.date[play] = Math.round(Date.UTC(season, 3, 1) / 86_400_000) + below(180);
    table.park[play] = play % 7 === 0 ? -1 : play % table.parks.length;
    table.surface[play] = below(3);
    table.inning[play] = below(10);
    table.outsBefore[play] = below(3);
    table.bases[play] = below(8);
    table.battingTeam[play] = play % 12;
    table.fieldingTeam[play] = (play + 5) % 12;
    table.batter[play] = below(300);
    table.pitcher[play] = random() < 0.1 ? -1 : below(300);
    table.batterSide[play] = below(2);
    table.ballKind[play] = below(5);
    table.exitSpeedMph[play] = numberOrGap(0.02, 30, 115);
    table.launchAngleDeg[play] = numberOrGap(0.1, -60, 60);
    table.bearingDeg[play] = numberOrGap(0, -45, 45);
    table.landingXFt[play] = numberOrGap(0.5, -200, 200);
    table.landingYFt[play] = numberOrGap(0.5, 10, 400);
    table.hangTimeS[play] = numberOrGap(0.5, 0.5, 6);
    table.touchedBy[play] = below(10);
    table.gatheredBy[play] = below(10);
    table.gatherXFt[play] = numberOrGap(0.1, -100, 100);
    table.gatherYFt[play] = numberOrGap(0.1, 10, 150);
    table.gatherTimeS[play] = numberOrGap(0.1, 0.4, 5);
    table.throwTo[play] = below(5);
    table.outsMade[play] = below(3);
    table.result[play] = below(7);
    table.gatherSeen[play] = random() < 0.05 ? 0 : 1;
    table.batterToFirstS[play] = numberOrGap(0.2, 3.8, 5);
    table.runsScored[play] = below(3);
    table.runsRestOfInning[play] = numberOrGap(0.1, 0, 5);
    for (let position = 1; position <= 9; position++) {
      if (random() < 0.01) continue;
      const slot = play * 9 + position - 1;
      table.fielder[slot] = (below(12) * 20 + position * 2) % 300;
      const isSeen = random() >= 0.05;
      table.startXFt[slot] = isSeen ? -150 + random() * 300 : Number.NaN;
      table.startYFt[slot] = isSeen ? 20 + random() * 250 : Number.NaN;
    }
  }
  return usedNamesOnly(table);
}

/** Drops names that no row uses, as a reader of the book cannot know them. */
function usedNamesOnly(table: ReturnType<typeof allocatePlayTable>): PlayTable {
  const shrink = (names: readonly string[], columns: readonly Int32Array[]) => {
    const used = new Set<number>();
    for (const column of columns) for (const index of column) if (index >= 0) used.add(index);
    const kept = [...used].sort((a, b) => a - b);
    const numbers = new Map(kept.map((old, index) => [old, index]));
    for (const column of columns) {
      for (let row = 0; row < column.length; row++) column[row] = numbers.get(column[row]!) ?? -1;
    }
    return kept.map((index) => names[index]!);
  };
  table.games = shrink(table.games, [table.game]);
  table.parks = shrink(table.parks, [table.park]);
  table.teams = shrink(table.teams, [table.battingTeam, table.fieldingTeam]);
  table.people = shrink(table.people, [table.batter, table.pitcher, table.fielder]);
  return table;
}
