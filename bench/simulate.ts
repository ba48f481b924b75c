/** Prints the default demo league's rates and speeds: `node --import tsx bench/simulate.ts [balls] [seed]`. */
import { performance } from 'node:perf_hooks';
import { BALL_KINDS } from '../src/diamond/play-codes.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { leagueRates } from '../src/league/tables/league-rates.ts';
import { actualStarts, replayBall } from '../src/league/truth/replay-ball.ts';
import { createRandom } from '../src/numeric/random.ts';

const began = performance.now();
const league = simulateLeague({
  seasons: 3,
  teams: 12,
  seed: Number(process.argv[3] ?? 1),
  ballsPerSeason: Number(process.argv[2] ?? 25_000),
});
const seconds = (performance.now() - began) / 1000;
console.log(`${league.plays.count} plays in ${seconds.toFixed(2)} s`);
console.log(leagueRates(league.plays));

const random = createRandom(7);
const replays = 100;
const rows: number[] = [];
for (let row = 0; rows.length < 600 && row < league.plays.count; row += 1) {
  if (league.plays.ballKind[row] === BALL_KINDS.indexOf('ground')) rows.push(row);
}
const from = performance.now();
let outs = 0;
let recorded = 0;
for (const row of rows) {
  const starts = actualStarts(league.truth, row);
  if (league.plays.outsMade[row]! > 0) recorded += 1;
  for (let k = 0; k < replays; k += 1) {
    if (replayBall(league.truth, row, { starts, men: 'actual', random: random.next }).outsMade > 0) outs += 1;
  }
}
const spent = (performance.now() - from) / 1000;
console.log(
  `replays a second ${Math.round((rows.length * replays) / spent)}, out rate ${(outs / rows.length / replays).toFixed(4)} recorded ${(recorded / rows.length).toFixed(4)}`,
);
