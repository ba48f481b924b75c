import { cpus, totalmem } from 'node:os';
import { ENTRY_KINDS } from '../src/ledger/entry-kinds.ts';
import type { FielderRow } from '../src/ledger/fielder-rows.ts';
import { createRandom } from '../src/numeric/random.ts';
import { compareRows } from '../src/ratings/compare.ts';
import { type CellColumns, type GameCells, mergeRows, RATED_KINDS } from '../src/ratings/game-cells.ts';
import { findHalfSignal } from '../src/ratings/half-signal.ts';
import { listManSeasons, type ManSeason } from '../src/ratings/man-seasons.ts';
import { drawPoissonWeights } from '../src/ratings/poisson-weights.ts';
import { estimateChanceRates } from '../src/ratings/rates.ts';
import { measureReliability } from '../src/ratings/reliability.ts';
import { estimateRoom } from '../src/ratings/room-to-gain.ts';
import { RowReplicates } from '../src/ratings/row-replicates.ts';
import { middle80 } from '../src/ratings/spread.ts';
import { estimateTotalErrors } from '../src/ratings/total-errors.ts';

/**
 * Standard errors and the other tables of totals for 30 clubs and three seasons, 1,000 replicates, on invented game sums of the size that a league
 * leaves: 162 games a club, eighteen men a club of whom nine play, four kinds of entry in use; then how often 80 % intervals of
 * sums and 95 % intervals of half-signal chances hold the truth on invented seasons. `npx tsx bench/totals.ts [REPLICATES]`.
 */
const CLUBS = 30;
const SEASONS = 3;
const GAMES = 162;

function main(): void {
  const replicates = Number(process.argv[2] ?? 1000);
  console.log(
    `${cpus()[0]?.model} x ${cpus().length}, ${Math.round(totalmem() / 2 ** 30)} GB, node ${process.version}`,
  );
  const cells = timed('invent the games', inventCells);
  console.log(`${cells.rows.length} men's rows, ${cells.game.length} men's games`);
  const games = Array.from({ length: (CLUBS * SEASONS * GAMES) / 2 }, (_, g) => `game-${g}`);
  timed('all of the below', () => {
    const weights = timed('draw the weights', () => drawPoissonWeights(games, replicates, 1));
    timed('men by season', () => estimateTotalErrors(cells, weights));
    timed('men by career', () => {
      const careers = mergeRows(
        cells,
        ({ fielder, position }) => `${fielder} ${position}`,
        (row) => row,
      );
      return estimateTotalErrors(careers, weights);
    });
    timed('clubs', () => {
      const clubs = mergeRows(
        cells,
        ({ season, team }) => `${season} ${team}`,
        (row) => row,
      );
      return estimateTotalErrors(clubs, weights);
    });
    timed('rates a chance', () => estimateChanceRates(cells, weights));
    timed('room to gain', () => estimateRoom(cells, weights));
    timed('reliability', () => {
      const seasons = listManSeasons(cells, inventDates(games.length));
      return [measureReliability(seasons), findHalfSignal(seasons)];
    });
    timed('compare two men with all', () => {
      const pair = mergeRows(
        cells,
        ({ fielder }) => String(Math.min(fielder, 2)),
        (row) => row,
      );
      return compareRows(pair, weights);
    });
  });
  console.log(`largest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB\n`);
  coverSums();
  coverHalfSignal();
}

/** One play a game, each on a day of its own. */
function inventDates(games: number): { game: Int32Array; date: Int32Array } {
  const game = Int32Array.from({ length: games }, (_, g) => g);
  return { game, date: game };
}

/** Clubs play each other in pairs; each man has an entry of most kinds in most games. */
function inventCells(): GameCells<FielderRow> {
  const random = createRandom(1);
  const rows: FielderRow[] = [];
  const start: number[] = [0];
  const game: number[] = [];
  for (let season = 0; season < SEASONS; season += 1) {
    for (let team = 0; team < CLUBS; team += 1) {
      for (let position = 1; position <= 9; position += 1) {
        // A regular, and a second man with a fifth of the games.
        for (const [man, share] of [0.8, 0.2].entries()) {
          rows.push({ season, fielder: (team * 9 + position - 1) * 2 + man, position, team });
          for (let g = 0; g < GAMES; g += 1) {
            if (man === 0 ? g % 5 !== 0 || share === 1 : g % 5 === 0) {
              game.push((season * CLUBS * GAMES) / 2 + (team >> 1) * GAMES + g);
            }
          }
          start.push(game.length);
        }
      }
    }
  }
  const column = (used: number) => Float64Array.from(game, () => (random.next() < used ? random.normal() : 0));
  const columns: CellColumns = {
    runs: ENTRY_KINDS.map((_, kind) => column([0.8, 0.8, 0.5, 0.15, 0.02, 0.02][kind]!)),
    fullOuts: RATED_KINDS.map((_, kind) => column([0.8, 0.8, 0.5, 0.15][kind]!)),
    chances: column(0.9).map(Math.abs),
    plays: column(1),
    fullPlays: column(1),
    roomOuts: column(0.8),
    roomRuns: column(0.8),
  };
  return { rows, start: Int32Array.from(start), game: Int32Array.from(game), ...columns };
}

/** Share of seasons whose 80 % interval holds the expected sum, by number of games; skewed, as a defender's games are. */
function coverSums(): void {
  const [seasons, expected] = [3000, 0.25];
  for (const n of [10, 20, 60, 150]) {
    const ids = Array.from({ length: n }, (_, g) => `g${g}`);
    const row = new RowReplicates(drawPoissonWeights(ids, 1000, 11));
    row.setRow({ game: Int32Array.from(ids, (_, g) => g), from: 0, to: n });
    const totals = new Float64Array(1000);
    let held = 0;
    for (let season = 0; season < seasons; season += 1) {
      const random = createRandom(77_000 + season * 13 + n);
      const games = Float64Array.from(ids, () => expected + 0.5 * (1 + Math.log(1 - random.next())));
      row.totalsInto(games, totals);
      const { lo80, hi80 } = middle80(totals);
      if (lo80 <= expected * n && expected * n <= hi80) held += 1;
    }
    console.log(`80 % intervals of sums over ${n} games: ${((100 * held) / seasons).toFixed(1)} % of ${seasons}`);
  }
}

/** Share of leagues whose 95 % interval holds the 100 chances that were put in, by number of men. */
function coverHalfSignal(): void {
  const leagues = 200;
  for (const men of [20, 40, 100]) {
    let held = 0;
    for (let league = 0; league < leagues; league += 1) {
      const random = createRandom(500 + league);
      const seasons = Array.from({ length: men }, (_, fielder): ManSeason => {
        const rate = 0.1 * random.normal();
        const gameChances = Float64Array.from({ length: 40 + random.integer(100) }, () => 4 * random.next());
        const reach = gameChances.map((c) => rate * c + Math.sqrt(c) * random.normal());
        const chances = gameChances.reduce((sum, c) => sum + c, 0);
        const none = new Float64Array(reach.length);
        return { fielder, season: 1, position: 6, chances, gameChances, gameOuts: [none, reach, none, none, reach] };
      });
      const { lo95, hi95 } = findHalfSignal(seasons).find(({ kind }) => kind === 'reach')!;
      if (lo95 <= 100 && 100 <= hi95) held += 1;
    }
    console.log(
      `95 % intervals of half-signal chances, ${men} men: ${((100 * held) / leagues).toFixed(1)} % of ${leagues}`,
    );
  }
}

/** Prints wall and processor seconds: on a machine that others use the second tells more. */
function timed<T>(what: string, body: () => T): T {
  const started = performance.now();
  const before = process.cpuUsage();
  const result = body();
  const { user, system } = process.cpuUsage(before);
  const wall = ((performance.now() - started) / 1000).toFixed(2).padStart(6);
  console.log(`${what.padEnd(24)} ${wall} s, processor ${((user + system) / 1e6).toFixed(2).padStart(6)} s`);
  return result;
}

main();
