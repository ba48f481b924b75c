import type { Cell, Store } from '../book/store.ts';

/** Kinds whose best and worst fielders the demo shows. */
export const SHOWN_KINDS = ['placement', 'reach', 'finish'] as const;
export type ShownKind = (typeof SHOWN_KINDS)[number];

type Row = Readonly<Record<string, Cell>>;

/** The few rows that the demo prints. */
export interface DemoTables {
  /** Season, mark or kind, outs, logit shift. */
  readonly balance: readonly Row[];
  /** The season that `fielders` and `teams` are of: the last one. */
  readonly season: number;
  /** For each kind the best and the worst fielders, best first. */
  readonly fielders: Readonly<Record<ShownKind, readonly Row[]>>;
  /** Clubs, best first. */
  readonly teams: readonly Row[];
  readonly playToExplain: string;
}

const ENDS = 3;

export async function readDemoTables(store: Store): Promise<DemoTables> {
  const balance = await store.rows(
    `SELECT season, ball_class, mark_or_kind, total_outs, logit_shift FROM balance ORDER BY season, ball_class`,
  );
  const [last] = await store.rows('SELECT max(season) AS season FROM fielders');
  const season = Number(last?.season);
  const fielders = {
    placement: await bestAndWorst(store, season, 'placement'),
    reach: await bestAndWorst(store, season, 'reach'),
    finish: await bestAndWorst(store, season, 'finish'),
  };
  const teams = await store.rows(
    `SELECT team, plays, placement_outs, reach_outs, finish_outs, turn_outs, ground_outs, net_outs, net_runs, net_runs_se
     FROM teams WHERE season = ${season} ORDER BY net_outs DESC, team`,
  );
  return { balance, season, fielders, teams, playToExplain: await playToExplain(store) };
}

/** The first and last few fielders of a season by one kind of entry. */
async function bestAndWorst(store: Store, season: number, kind: ShownKind): Promise<Row[]> {
  return await store.rows(
    `SELECT name, team, position, chances, ${kind}_outs AS outs, ${kind}_runs AS runs, ${kind}_runs_se AS runs_se
     FROM (SELECT *, row_number() OVER (ORDER BY ${kind}_outs DESC, fielder_id, position, team) AS rank,
                  count(*) OVER () AS men
           FROM fielders WHERE season = ${season} AND position BETWEEN 3 AND 9)
     WHERE rank <= ${ENDS} OR rank > men - ${ENDS} ORDER BY rank`,
  );
}

/** A fully recorded grounder, an out, on which placement and reach both mattered, neither to an extreme. */
async function playToExplain(store: Store): Promise<string> {
  const [row] = await store.rows(
    `SELECT play_id FROM marks WHERE grade = 'full' AND closed = 1 AND ball_kind = 'ground'
     ORDER BY abs(abs("set" - opening) - 0.3) + abs(abs(gathered - "set") - 0.4), play_id LIMIT 1`,
  );
  return String(row?.play_id ?? '');
}
