import type { PlayingRecord } from './playing-record.ts';

/** Chances that a man will have at a position next season, if he is back there. */
export interface ExpectedChances {
  readonly mean: number;
  readonly sd: number;
}

/**
 * Expected chances from last season's, in shares of the position's busiest quarter, by a straight line. What comes about it varies as the
 * share itself does: a man who is seldom called on may be off by little.
 */
export interface PlayingTime {
  readonly intercept: number;
  readonly slope: number;
  /** Standard deviation of what comes where a whole such season is expected; where less is, as the root of the share. */
  readonly sd: number;
  /** Pairs of seasons that the line was fitted to; 0 when the book has too few and the usual values serve. */
  readonly pairs: number;
  expect(record: PlayingRecord): ExpectedChances;
}

/** Fewer pairs than this are not fitted. */
const FEWEST_PAIRS = 20;
/** What serves instead, from memory: two thirds of the way from half a full season to what he had, give or take a third at a full season. */
const USUAL = { intercept: 0.17, slope: 0.67, sd: 0.33 };
/** Shares count as no less than this where they divide. */
const LEAST_SHARE = 0.02;

/**
 * Fits the line to all men who had chances at one position in two seasons running. A full season is the mean of the busiest quarter of
 * the men at a position, so that all positions share one line.
 */
export function fitPlayingTime(records: readonly PlayingRecord[]): PlayingTime {
  const full = fullSeasons(records);
  const of = new Map(records.map((record) => [keyOf(record, record.season), record]));
  const now: number[] = [];
  const next: number[] = [];
  for (const record of records) {
    const after = of.get(keyOf(record, record.season + 1));
    const all = full.get(record.position)!;
    if (after === undefined || !(record.chances > 0) || !(after.chances > 0)) continue;
    now.push(record.chances / all);
    next.push(after.chances / all);
  }
  const line = now.length < FEWEST_PAIRS ? USUAL : straightLine(now, next);
  return {
    ...line,
    pairs: now.length < FEWEST_PAIRS ? 0 : now.length,
    expect({ position, chances }) {
      const all = full.get(position)!;
      const share = Math.max(line.intercept + (line.slope * chances) / all, 0);
      return { mean: all * share, sd: all * line.sd * Math.sqrt(share) };
    },
  };
}

function keyOf({ man, position }: PlayingRecord, season: number): string {
  return `${season} ${man} ${position}`;
}

/** Mean chances of the busiest quarter of the men's seasons at each position. */
function fullSeasons(records: readonly PlayingRecord[]): Map<number, number> {
  const byPosition = new Map<number, number[]>();
  for (const { position, chances } of records) {
    const list = byPosition.get(position);
    if (list === undefined) byPosition.set(position, [chances]);
    else list.push(chances);
  }
  return new Map(
    [...byPosition].map(([position, list]) => {
      const busiest = list.sort((a, b) => b - a).slice(0, Math.ceil(list.length / 4));
      const mean = busiest.reduce((sum, chances) => sum + chances, 0) / busiest.length;
      return [position, mean > 0 ? mean : 1];
    }),
  );
}

function straightLine(x: readonly number[], y: readonly number[]): { intercept: number; slope: number; sd: number } {
  const n = x.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  let [xx, xy] = [0, 0];
  for (let i = 0; i < n; i += 1) {
    xx += (x[i] - mx) ** 2;
    xy += (x[i] - mx) * (y[i] - my);
  }
  const slope = xx > 0 ? xy / xx : 0;
  const intercept = my - slope * mx;
  const scaled = y.map((value, i) => {
    const share = Math.max(intercept + slope * x[i], LEAST_SHARE);
    return (value - intercept - slope * x[i]) ** 2 / share;
  });
  return { intercept, slope, sd: Math.sqrt((mean(scaled) * n) / (n - 2)) };
}
