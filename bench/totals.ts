import { cpus, totalmem } from 'node:os';
import { ENTRY_KINDS } from '../src/ledger/entry-kinds.ts';
import { createRandom } from '../src/numeric/random.ts';
import type { CellColumns, FielderRow, GameCells } from '../src/ratings/game-cells.ts';
import { mergeRows, RATED_KINDS } from '../src/ratings/game-cells.ts';
import { drawPoissonWeights } from '../src/ratings/poisson-weights.ts';
import { estimateTotalErrors } from '../src/ratings/total-errors.ts';

/**
 * Standard errors of 30 clubs and three seasons, 1,000 replicates, on invented game sums of the size that a league
 * leaves: 162 games a club, nine men and two substitutes a game, four kinds of entry in use. `npx tsx bench/totals.ts [REPLICATES]`.
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
  });
  console.log(`largest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
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
    chances: column(0.9),
    plays: column(1),
    fullPlays: column(1),
    roomOuts: column(0.8),
    roomRuns: column(0.8),
  };
  return { rows, start: Int32Array.from(start), game: Int32Array.from(game), ...columns };
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
