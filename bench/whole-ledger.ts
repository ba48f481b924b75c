import { cpus, totalmem } from 'node:os';
import { selectAirBalls } from '../src/chances/air/air-balls.ts';
import { fitAirModels } from '../src/chances/air/air-models.ts';
import type { DrawSettings } from '../src/chances/even-draws.ts';
import { fitGrounderModels } from '../src/chances/grounder-models.ts';
import { selectGrounders } from '../src/chances/grounders.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { scoreAir } from '../src/ledger/score-air.ts';
import { scoreGrounders } from '../src/ledger/score-grounders.ts';
import { FLAT_STAKE_RUNS } from '../src/ledger/stake.ts';
import { SILENT } from '../src/progress.ts';

/** Marks and entries of a season of 30 clubs (or as many balls as the first argument says), 24 draws: `npx tsx bench/whole-ledger.ts`. */
const DRAWS: DrawSettings = { draws: 24, window: 'rolling', seed: 1 };

function main(): void {
  const ballsPerSeason = Number(process.argv[2] ?? 120_000);
  console.log(
    `${cpus()[0]?.model} x ${cpus().length}, ${Math.round(totalmem() / 2 ** 30)} GB, node ${process.version}`,
  );
  const { plays } = simulateLeague({ seasons: 1, teams: 30, seed: 1, ballsPerSeason });
  const grounders = selectGrounders(plays);
  const balls = selectAirBalls(plays);
  console.log(`${plays.count} balls in play: ${grounders.count} grounders, ${balls.count} in the air\n`);

  const grounderModels = timed('fit the grounder models', () => fitGrounderModels(grounders, SILENT));
  const airModels = timed('fit the air models', () => fitAirModels(balls, SILENT));
  console.log('');
  const stakeRuns = new Float64Array(balls.count).fill(FLAT_STAKE_RUNS);
  const scored = timed('marks and entries, both', () => {
    const ground = timed('marks and entries of grounders', () =>
      scoreGrounders(grounders, grounderModels, DRAWS, SILENT),
    );
    const air = timed('marks and entries in the air', () => scoreAir(balls, airModels, stakeRuns, DRAWS, SILENT));
    return [ground, air];
  });
  console.log(`${scored.reduce((sum, { entries }) => sum + entries.count, 0)} entries`);
  console.log(`\nlargest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
}

/** Prints wall and processor seconds: on a machine that others use the second tells more. */
function timed<T>(what: string, body: () => T): T {
  const started = performance.now();
  const before = process.cpuUsage();
  const result = body();
  const { user, system } = process.cpuUsage(before);
  const wall = ((performance.now() - started) / 1000).toFixed(2).padStart(6);
  console.log(`${what.padEnd(34)} ${wall} s, processor ${((user + system) / 1e6).toFixed(2).padStart(6)} s`);
  return result;
}

main();
