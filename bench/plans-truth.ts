/**
 * Plans against the demo league's truth (method.md 12, 13).
 *   npx tsx bench/plans-truth.ts [batters] [balls] [seed]
 * Default 30 batters of whom at least 150 balls were seen, each plan judged on 40,000 balls that he truly hits, with average men
 * and the same luck for every placement. Best is what a brute-force search of the simulator finds within the same limits.
 */

import { legalTwoASide } from '../src/diamond/playing-rules.ts';
import { plannedLeague } from '../test/plans/plan-grounds.ts';
import { mean } from '../test/truth/correlation.ts';
import { judgeByTruth, meanMoveFt, withFewBalls } from '../test/truth/plan-truth.ts';
import { truePeople } from '../test/truth/true-batters.ts';

const BATTERS = Number(process.argv[2] ?? 30);
const BALLS = Number(process.argv[3] ?? 40_000);
const OPTIONS = { seasons: 3, teams: 12, seed: Number(process.argv[4] ?? 1) };
const SEARCH = { balls: 800, coarseFt: 10, fineFt: 3 };

const { league, grounds } = plannedLeague(OPTIONS.seasons, OPTIONS.teams, OPTIONS.seed);
const people = truePeople(OPTIONS);
const seen = people.filter(({ index }) => (grounds.ofBatter.get(index)?.length ?? 0) >= 150);
const batters = seen.filter((_, k) => k % Math.max(1, Math.floor(seen.length / BATTERS)) === 0).slice(0, BATTERS);
const two = (value: number) => value.toFixed(2);

for (const rule of ['two-a-side', 'open'] as const) {
  const found = batters.map((batter, k) => {
    console.error(`${rule} ${k + 1} of ${batters.length}`);
    return judgeByTruth(grounds, league.truth, batter, { rule }, BALLS, SEARCH);
  });
  const sum = (of: (each: (typeof found)[number]) => number) => found.reduce((total, each) => total + of(each), 0);
  const said = (each: (typeof found)[number]) => each.plan.gain_runs_per_100;
  const within = found.filter((each) => each.gain >= said(each).lo80 && each.gain <= said(each).hi80).length;
  const worst = found.reduce((a, b) => (b.gain / b.error < a.gain / a.error ? b : a));
  const illegal = found.filter(({ starts }) => legalTwoASide(starts, 0).legal !== true).length;
  console.log(
    `- ${rule}, ${found.length} batters with ${Math.min(...found.map(({ plan }) => plan.balls))} to ${Math.max(...found.map(({ plan }) => plan.balls))} balls seen: true gain ${two(sum(({ gain }) => gain) / found.length)} runs per 100 balls against the even spots, stated ${two(mean(found.map((each) => said(each).value)))}, best found ${two(sum(({ best }) => best) / found.length)}: ${((100 * sum(({ gain }) => gain)) / sum(({ best }) => best)).toFixed(1)} % of it (${((100 * sum(({ gain }) => gain)) / sum(({ gain, best }) => Math.max(gain, best))).toFixed(1)} % where the plan counts as best when it beats the search); stated 80 % intervals hold the true gain in ${within} of ${found.length}, mean width ${two(mean(found.map((each) => said(each).hi80 - said(each).lo80)))}; smallest true gain ${two(worst.gain)} +- ${two(worst.error)}; ${illegal} plans not legal two a side`,
  );
}

for (const most of [0, 5, 30]) {
  const few = withFewBalls(grounds, most);
  const none = withFewBalls(grounds, 0);
  const judged = batters.map((batter) => {
    const question = { rule: 'two-a-side', side: batter.batsLeft ? 'L' : 'R' } as const;
    const plan = judgeByTruth(few, league.truth, batter, question, Math.min(BALLS, 20_000), null);
    const average = judgeByTruth(none, league.truth, batter, question, 1, null);
    return { plan, fromEven: meanMoveFt(plan.starts, plan.even), fromAverage: meanMoveFt(plan.starts, average.starts) };
  });
  const within = judged.filter(
    ({ plan: { gain, plan } }) => gain >= plan.gain_runs_per_100.lo80 && gain <= plan.gain_runs_per_100.hi80,
  ).length;
  console.log(
    `- two-a-side with ${most} balls seen: a man stands ${two(mean(judged.map(({ fromEven }) => fromEven)))} ft from his even spot and ${two(mean(judged.map(({ fromAverage }) => fromAverage)))} ft from the plan against an average batter of the side (mean of four); true gain ${two(mean(judged.map(({ plan }) => plan.gain)))}, intervals hold it in ${within} of ${judged.length}`,
  );
}
