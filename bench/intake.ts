/**
 * How much longer intake takes than the engine alone needs to read the same files into tables.
 *   npx tsx bench/intake.ts [plays] [rounds]
 * Default 75,000 plays with 675,000 starts; the ratio of the medians is the figure (target: at most 2).
 */

import { once } from 'node:events';
import { createWriteStream, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir, totalmem } from 'node:os';
import { join } from 'node:path';
import { openBook } from '../src/book/open-book.ts';
import { quoteText } from '../src/book/sql-text.ts';
import { intake } from '../src/commands/intake.ts';
import { SILENT } from '../src/progress.ts';

const PLAYS = Number(process.argv[2] ?? 75_000);
const ROUNDS = Number(process.argv[3] ?? 5);
const effects = { progress: SILENT, now: () => new Date() };

/** A number that looks measured and depends on its place alone. */
function wave(row: number, column: number, from: number, to: number): string {
  const unit = Math.abs(Math.sin(row * 12.9898 + column * 78.233) * 43758.5453) % 1;
  return (from + (to - from) * unit).toFixed(2);
}

async function write(path: string, header: string, lines: Iterable<string>): Promise<void> {
  const out = createWriteStream(path);
  out.write(`${header}\n`);
  let block = '';
  for (const line of lines) {
    block += `${line}\n`;
    if (block.length < 1 << 20) continue;
    if (!out.write(block)) await once(out, 'drain');
    block = '';
  }
  out.end(block);
  await once(out, 'close');
}

function* playLines(): Generator<string> {
  for (let row = 0; row < PLAYS; row++) {
    const game = Math.floor(row / 50);
    const [home, away] = [`club${game % 12}`, `club${(game + 5) % 12}`];
    const [batting, fielding] = row % 2 === 0 ? [home, away] : [away, home];
    const day = `2031-0${4 + (game % 6)}-${String(1 + (game % 28)).padStart(2, '0')}`;
    const spot = `${wave(row, 1, -100, 100)},${wave(row, 2, 20, 160)},${wave(row, 3, 0.5, 2.5)}`;
    yield `p${row},g${game},${day},park${game % 12},grass,${1 + (row % 9)},${row % 2},,,,${batting},${fielding},` +
      `${batting}-b${row % 11},${row % 3 ? 'R' : 'L'},${fielding}-f1,ground,${wave(row, 4, 50, 110)},${wave(row, 5, -20, 10)},` +
      `${wave(row, 6, -45, 45)},,,,6,6,${spot},1B,1,out,4.3,0,0,`;
  }
}

function* startLines(): Generator<string> {
  for (let row = 0; row < PLAYS; row++) {
    const game = Math.floor(row / 50);
    const fielding = `club${(row % 2 === 0 ? game + 5 : game) % 12}`;
    for (let position = 1; position <= 9; position++) {
      yield `p${row},${position},${fielding}-f${position},${wave(row, position, -90, 90)},${wave(row, position + 9, 60, 160)}`;
    }
  }
}

const median = (values: number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

const dir = mkdtempSync(join(tmpdir(), 'leatherbook-bench-'));
try {
  const playColumns =
    'play_id,game_id,date,park,surface,inning,outs_before,runner_on_1b,runner_on_2b,runner_on_3b,batting_team,fielding_team,batter_id,batter_side,pitcher_id,ball_kind,exit_speed_mph,launch_angle_deg,bearing_deg,landing_x_ft,landing_y_ft,hang_time_s,touched_by,gathered_by,gather_x_ft,gather_y_ft,gather_time_s,throw_to,outs_made,result,batter_to_first_s,runs_scored,runs_rest_of_inning,gather_seen';
  const startColumns = 'play_id,position,fielder_id,start_x_ft,start_y_ft';
  const [plays, starts, mapping] = [join(dir, 'plays.csv'), join(dir, 'starts.csv'), join(dir, 'mapping.yaml')];
  await write(plays, playColumns, playLines());
  await write(starts, startColumns, startLines());
  const columns = (names: string) =>
    names
      .split(',')
      .map((name) => `      ${name}: ${name}\n`)
      .join('');
  writeFileSync(
    mapping,
    `tables:\n  plays:\n    files: [plays.csv]\n    columns:\n${columns(playColumns)}  starts:\n    files: [starts.csv]\n    columns:\n${columns(startColumns)}`,
  );
  const plain: number[] = [];
  const whole: number[] = [];
  let version = '';
  for (let round = 0; round < ROUNDS; round++) {
    const bookDir = join(dir, `plain-${round}`);
    const book = await openBook(bookDir, { access: 'create', command: 'bench', now: effects.now });
    version = String((await book.store.rows('SELECT version() AS v'))[0]!.v);
    const began = performance.now();
    await book.store.run(`CREATE TABLE plain_plays AS SELECT * FROM read_csv(${quoteText(plays)})`);
    await book.store.run(`CREATE TABLE plain_starts AS SELECT * FROM read_csv(${quoteText(starts)})`);
    await book.close();
    plain.push(performance.now() - began);
    rmSync(bookDir, { recursive: true });
    const intakeBegan = performance.now();
    const report = await intake({ book: join(dir, `book-${round}`), mapping }, effects);
    whole.push(performance.now() - intakeBegan);
    rmSync(join(dir, `book-${round}`), { recursive: true });
    if (report.loaded !== PLAYS * 10) throw new Error(`loaded ${report.loaded}: ${JSON.stringify(report.reasons)}`);
  }
  const megabytes = (statSync(plays).size + statSync(starts).size) / 1e6;
  console.log(
    `machine: ${cpus()[0]?.model ?? '?'}, ${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GB; node ${process.version}, engine ${version}`,
  );
  console.log(`data: ${PLAYS} plays, ${PLAYS * 9} starts, ${megabytes.toFixed(1)} MB of CSV; ${ROUNDS} rounds`);
  console.log(`engine alone: median ${median(plain).toFixed(0)} ms (${plain.map((ms) => ms.toFixed(0)).join(', ')})`);
  console.log(`intake: median ${median(whole).toFixed(0)} ms (${whole.map((ms) => ms.toFixed(0)).join(', ')})`);
  console.log(
    `ratio of medians: ${(median(whole) / median(plain)).toFixed(2)}, median of the rounds' ratios ${median(whole.map((ms, round) => ms / plain[round]!)).toFixed(2)}; peak memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
  );
} finally {
  rmSync(dir, { recursive: true, force: true });
}
