/**
 * Figures of the default demo league: time to compute and write it, its rates against the bands they must hold, and
 * replays a second. `node --import tsx bench/simulate.ts [balls a season] [seed]`; exit code 1 when a band is missed.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { BALL_KINDS } from '../src/diamond/play-codes.ts';
import { writeLeague } from '../src/league/files/write-league.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { leagueRates } from '../src/league/tables/league-rates.ts';
import { actualStarts, replayBall } from '../src/league/truth/replay-ball.ts';
import { createRandom } from '../src/numeric/random.ts';
import { SILENT } from '../src/progress.ts';

const GROUND = BALL_KINDS.indexOf('ground');
const options = {
  seasons: 3,
  teams: 12,
  ballsPerSeason: Number(process.argv[2] ?? 25_000),
  seed: Number(process.argv[3] ?? 1),
};
const seconds = (since: number) => (performance.now() - since) / 1000;
let missed = 0;

function hold(name: string, value: number, least: number, most: number): void {
  const held = value >= least && value <= most;
  if (!held) missed += 1;
  console.log(`${held ? 'ok  ' : 'MISS'} ${name.padEnd(52)} ${value.toFixed(4)}  (${least} to ${most})`);
}

const began = performance.now();
const league = simulateLeague(options);
const computed = seconds(began);
const dir = await mkdtemp(join(tmpdir(), 'leatherbook-bench-league-'));
await writeLeague(dir, league, options, SILENT);
const whole = seconds(began);
await rm(dir, { recursive: true });
console.log(
  `${league.plays.count} plays computed in ${computed.toFixed(2)} s, written in ${(whole - computed).toFixed(2)} s`,
);
hold('seconds in all', whole, 0, 15);

const rates = leagueRates(league.plays);
const by = rates.gatheredBy;
hold('grounders among balls in play', rates.kinds.ground!, 0.43, 0.46);
hold('grounders with an out', rates.outs.ground!, 0.72, 0.78);
hold('two outs among grounder outs', rates.doubled, 0.08, 0.12);
hold('of these, runner on first and fewer than two outs', rates.doubledWithForce, 0.95, 1);
hold('errors among grounders', rates.grounderErrors, 0.02, 0.03);
hold('liners with an out', rates.outs.liner!, 0.25, 0.35);
hold('flies with an out', rates.outs.fly!, 0.8, 0.88);
hold('popups with an out', rates.outs.popup!, 0.97, 1);
hold('fewest of 4 and 6 over most of 3 and 5, gathers', Math.min(by[4]!, by[6]!) / Math.max(by[3]!, by[5]!), 1, 10);
hold('fewest of 3 and 5 over the pitcher, gathers', Math.min(by[3]!, by[5]!) / by[1]!, 1, 10);
console.log('results of grounders', rates.results);
console.log('grounders gathered by', by.map((share, p) => `${p}: ${(100 * share).toFixed(1)} %`).join(', '));

const random = createRandom(7);
const starts = new Float64Array(18);
const replays = 200;
const rows: number[] = [];
for (let row = 0; rows.length < 2000 && row < league.plays.count; row += 1)
  if (league.plays.ballKind[row] === GROUND) rows.push(row);
const from = performance.now();
for (const row of rows) {
  actualStarts(league.truth, row, starts);
  for (let k = 0; k < replays; k += 1) replayBall(league.truth, row, { starts, men: 'actual', random: random.next });
}
hold('thousand grounder replays a second', (rows.length * replays) / seconds(from) / 1000, 60, 1e6);
process.exitCode = missed > 0 ? 1 : 0;
