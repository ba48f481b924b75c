import { FULL } from '../chances/grades.ts';
import { SIDES } from '../diamond/play-codes.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import { PLACEMENT } from '../ledger/entry-kinds.ts';
import { clusteredMean } from '../numeric/scores.ts';
import type { Estimate } from './man-posterior.ts';
import { shrinkNormal } from './shrink-normal.ts';

/** How well a club placed its men against batters of one side, over a season. */
export interface TeamPlacement {
  readonly season: number;
  /** Index into the table's teams. */
  readonly team: number;
  /** Code of SIDES. */
  readonly side: number;
  /** Plays of grade `full`, and the sum of their entries. */
  readonly plays: number;
  readonly placementOuts: number;
  /** Outs per 100 plays, drawn toward the league's mean. */
  readonly rating: Estimate;
  /** Standard deviation between clubs, outs per 100 plays; NaN with fewer than four clubs, whose rates are left as they are. */
  readonly spread: number;
}

interface Draft {
  readonly season: number;
  readonly team: number;
  readonly side: number;
  /** Placement of each play, and its game. */
  readonly outs: number[];
  readonly game: number[];
}

/**
 * Placement by season, club and batter's side over the plays of grade `full` of all classes (method.md 10): rates per 100 plays with
 * standard errors by game, drawn together within a season and side.
 */
export function rateTeamPlacement(ledgers: readonly ClassLedger[]): TeamPlacement[] {
  const drafts = collectDrafts(ledgers);
  const groups = new Map<number, Draft[]>();
  for (const draft of drafts) {
    const key = draft.season * SIDES.length + draft.side;
    groups.set(key, [...(groups.get(key) ?? []), draft]);
  }
  return [...groups.entries()]
    .sort(([a], [b]) => a - b)
    .flatMap(([, group]) => shrinkGroup(group.sort((a, b) => a.team - b.team)));
}

function collectDrafts(ledgers: readonly ClassLedger[]): Draft[] {
  const drafts = new Map<string, Draft>();
  for (const { plays, entries, grade } of ledgers) {
    const { table } = plays;
    const placement = new Float64Array(plays.count);
    for (let e = 0; e < entries.count; e += 1) {
      if (entries.kind[e] === PLACEMENT) placement[entries.play[e]] += entries.outs[e];
    }
    for (let at = 0; at < plays.count; at += 1) {
      if (grade[at] !== FULL) continue;
      const row = plays.row[at];
      const [season, team, side] = [plays.season[at], table.fieldingTeam[row], table.batterSide[row]];
      const key = `${season} ${team} ${side}`;
      let draft = drafts.get(key);
      if (draft === undefined) {
        draft = { season, team, side, outs: [], game: [] };
        drafts.set(key, draft);
      }
      draft.outs.push(placement[at]);
      draft.game.push(table.game[row]);
    }
  }
  return [...drafts.values()];
}

/** Clubs of one season and side; one with a single game has no standard error, and so no rating. */
function shrinkGroup(group: readonly Draft[]): TeamPlacement[] {
  const rates = group.map(({ outs, game }) => clusteredMean(outs, game));
  const known = rates.map(({ se }, k) => (se > 0 ? k : -1)).filter((k) => k >= 0);
  const shrunk = shrinkNormal(
    known.map((k) => 100 * rates[k].mean),
    known.map((k) => 100 * rates[k].se),
  );
  return group.map(({ season, team, side, outs }, k) => ({
    season,
    team,
    side,
    plays: outs.length,
    placementOuts: outs.reduce((sum, value) => sum + value, 0),
    rating: shrunk.estimates[known.indexOf(k)] ?? { mean: Number.NaN, sd: Number.NaN },
    spread: shrunk.spread,
  }));
}
