import { allocatePlayTable, type PlayTable } from '../../src/chances/play-table.ts';
import { BALL_KINDS, type BallKind, RESULTS, SIDES, type Side } from '../../src/diamond/play-codes.ts';

export type Starts = Readonly<Partial<Record<3 | 4 | 5 | 6, readonly [number, number] | null>>>;

/** One play as a test wants it; what it leaves out is a routine grounder toward short with everybody in his usual place. */
export interface Fabricated {
  readonly id?: string;
  readonly game?: string;
  readonly club?: string;
  readonly season?: number;
  /** Day of the season, from 0. */
  readonly day?: number;
  readonly kind?: BallKind;
  readonly side?: Side;
  readonly outsBefore?: number;
  readonly bases?: number;
  readonly bearing?: number;
  readonly speed?: number;
  readonly launch?: number;
  /** Feet by position; null for a start that was not seen. */
  readonly starts?: Starts;
  readonly touchedBy?: number;
  readonly gatheredBy?: number;
  readonly gatherSeen?: boolean;
  readonly gatherAt?: readonly [number, number] | null;
  readonly gatherTime?: number | null;
  readonly throwTo?: number;
  readonly outs?: number;
  readonly runner?: number;
}

export const USUAL: Required<{ readonly [K in 3 | 4 | 5 | 6]: readonly [number, number] }> = {
  3: [62, 101],
  4: [31, 145],
  5: [-64, 99],
  6: [-40, 142],
};

/** Beyond any plausible chance: more than 60 ft from every fair line through the infield that the tests use. */
export const AWAY: Starts = { 3: [200, 5], 4: [190, 5], 5: [-200, 5], 6: [-190, 5] };

const gameOf = ({ game }: Fabricated) => game ?? 'game-1';

/** A table of fabricated plays, each club with nine men of its own, in canonical order. */
export function fabricatePlays(plays: readonly Fabricated[]): PlayTable {
  const ids = plays.map(({ id }, k) => id ?? `play-${String(k).padStart(6, '0')}`);
  const place = plays.map((_, k) => k);
  place.sort((a, b) => (plays[a]!.season ?? 2031) - (plays[b]!.season ?? 2031) || (ids[a]! < ids[b]! ? -1 : 1));
  const table = allocatePlayTable(plays.length);
  const clubs = [...new Set(plays.map(({ club }) => club ?? 'Reed'))];
  table.games = [...new Set(plays.map(gameOf))];
  table.parks = ['park'];
  table.teams = [...clubs, 'Guests'];
  table.people = [...clubs.flatMap((club) => [1, 2, 3, 4, 5, 6, 7, 8, 9].map((p) => `${club}-${p}`)), 'batter'];
  place.forEach((from, row) => {
    const play = plays[from]!;
    const club = clubs.indexOf(play.club ?? 'Reed');
    table.playId[row] = ids[from]!;
    table.game[row] = table.games.indexOf(gameOf(play));
    table.park[row] = 0;
    table.season[row] = play.season ?? 2031;
    table.date[row] = Math.round(Date.UTC(table.season[row]!, 3, 1) / 86_400_000) + (play.day ?? 0);
    table.inning[row] = 1;
    table.battingTeam[row] = clubs.length;
    table.fieldingTeam[row] = club;
    table.batter[row] = table.people.length - 1;
    table.pitcher[row] = club * 9;
    table.surface[row] = 1;
    table.outsBefore[row] = play.outsBefore ?? 0;
    table.bases[row] = play.bases ?? 0;
    table.batterSide[row] = SIDES.indexOf(play.side ?? 'R');
    table.ballKind[row] = BALL_KINDS.indexOf(play.kind ?? 'ground');
    table.bearingDeg[row] = play.bearing ?? -15;
    table.exitSpeedMph[row] = play.speed ?? 85;
    table.launchAngleDeg[row] = play.launch ?? -10;
    table.batterToFirstS[row] = play.runner ?? 4.35;
    table.gatheredBy[row] = play.gatheredBy ?? 6;
    table.touchedBy[row] = play.touchedBy ?? table.gatheredBy[row]!;
    table.gatherSeen[row] = play.gatherSeen === false ? 0 : 1;
    const gathered = table.gatheredBy[row]! > 0;
    const at = play.gatherAt === undefined ? [-38, 132] : play.gatherAt;
    if (gathered && at !== null) [table.gatherXFt[row], table.gatherYFt[row]] = [at[0]!, at[1]!];
    if (gathered && play.gatherTime !== null) table.gatherTimeS[row] = play.gatherTime ?? 1.7;
    table.outsMade[row] = play.outs ?? 1;
    table.throwTo[row] = play.throwTo ?? (gathered && table.gatheredBy[row]! <= 6 ? 1 : 0);
    table.result[row] = RESULTS.indexOf(table.outsMade[row]! > 0 ? 'out' : 'single');
    for (let position = 1; position <= 9; position += 1) {
      const slot = row * 9 + position - 1;
      table.fielder[slot] = club * 9 + position - 1;
      const spot = { ...USUAL, ...play.starts }[position as 3];
      if (spot === undefined || spot === null) continue;
      table.startXFt[slot] = spot[0];
      table.startYFt[slot] = spot[1];
    }
  });
  return table;
}
