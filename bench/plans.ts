/**
 * Speed of plans, and how a batter's balls are drawn toward the league's.
 *   npx tsx bench/plans.ts speed [plans]     one plan after another on one core; default 240
 *   npx tsx bench/plans.ts balls [seed]      held-out log density of batters' balls under other settings
 *   npx tsx bench/plans.ts search [batters]  the search for starts against a library's optimisers
 * The target: one plan in a second, 300 batters in 8 situations (2,400 plans) in ten minutes on two cores, half a second each.
 */
import nlopt from 'nlopt-js';
import { selectAirBalls } from '../src/chances/air/air-balls.ts';
import { projectFlights } from '../src/chances/air/carry.ts';
import { selectGrounders } from '../src/chances/grounders.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import type { BallSettings } from '../src/plans/batter-balls.ts';
import { ChanceBoard } from '../src/plans/chance-board.ts';
import { BALL_SETTINGS, chooseBallSettings, HeldOutBalls } from '../src/plans/choose-ball-settings.ts';
import { poseQuestion } from '../src/plans/pose-question.ts';
import { searchStarts } from '../src/plans/search-starts.ts';
import { collectSeenBalls } from '../src/plans/seen-balls.ts';
import { solvePlan } from '../src/plans/solve-plan.ts';
import { someBatters } from '../test/plans/held-out.ts';
import { boxLimits, libraryBest, MOVERS } from '../test/plans/library-search.ts';
import { scorePitchers, withGivers } from '../test/plans/pitcher-held-out.ts';
import { battersSeen, plannedLeague } from '../test/plans/plan-grounds.ts';
import { mean } from '../test/truth/correlation.ts';

const SITUATIONS = [
  [0, 0],
  [1, 0],
  [2, 0],
  [0, 1],
  [1, 1],
  [2, 3],
  [1, 5],
  [0, 7],
] as const;

if (process.argv[2] === 'balls') weighBalls(Number(process.argv[3] ?? 1));
else if (process.argv[2] === 'search') await compareSearches(Number(process.argv[3] ?? 10));
else measureSpeed(Number(process.argv[3] ?? 240));

function measureSpeed(plans: number): void {
  const { grounds } = plannedLeague(3, 12, 1);
  const { teams } = grounds.data.table;
  const batters = battersSeen(grounds, 60);
  const began = performance.now();
  const cpu = process.cpuUsage();
  let slowest = 0;
  for (let k = 0; k < plans; k += 1) {
    const [outs, bases] = SITUATIONS[k % SITUATIONS.length]!;
    const at = performance.now();
    const batter = batters[Math.floor(k / SITUATIONS.length) % batters.length]!;
    solvePlan(grounds, { batter, defence: teams[k % teams.length]!, outs, bases, rule: 'two-a-side' });
    slowest = Math.max(slowest, performance.now() - at);
  }
  const used = process.cpuUsage(cpu);
  const seconds = (used.user + used.system) / 1e6 / plans;
  console.log(
    `${plans} plans: ${(seconds * 1000).toFixed(0)} ms of processor each, ${((performance.now() - began) / plans).toFixed(0)} ms on the clock, slowest ${slowest.toFixed(0)} ms; 2,400 plans on two cores: ${((seconds * 2400) / 2 / 60).toFixed(1)} minutes`,
  );
  for (const more of [{ outfield: true }, { anywhere: true, rule: 'open' as const }]) {
    const at = performance.now();
    solvePlan(grounds, { batter: batters[0]!, defence: teams[0]!, outs: 0, bases: 0, rule: 'two-a-side', ...more });
    console.log(`with ${Object.keys(more).join(', ')}: ${(performance.now() - at).toFixed(0)} ms`);
  }
}

function weighBalls(seed: number): void {
  const { plays: table } = simulateLeague({ seasons: 3, teams: 12, seed });
  const air = selectAirBalls(table);
  const balls = collectSeenBalls(selectGrounders(table), air, projectFlights(air, { fitted: null }));
  const heldOutOf = (most: number) => new HeldOutBalls(table, balls, someBatters(table, balls, 40, most));
  for (const most of [10, 50, 150, 1000]) {
    const heldOut = heldOutOf(most);
    const { league, own, drawn, balls: n } = heldOut.score(BALL_SETTINGS);
    console.log(
      `at most ${most} balls a batter, ${n} held out: league ${league.toFixed(4)}, own balls ${own.toFixed(4)}, drawn together ${drawn.toFixed(4)}`,
    );
  }
  const heldOut = heldOutOf(1000);
  const held: BallSettings = BALL_SETTINGS;
  const tries: Partial<BallSettings>[] = [
    ...[5, 10, 20, 40, 80, 160].map((precision) => ({ precision })),
    ...[100, 300, 1000, 3000, 10_000, 1e9].map((leagueWeight) => ({ leagueWeight })),
    ...[0.6, 0.8, 1, 1.3].map((bandwidth) => ({ bandwidth })),
    ...[180, 365, 730].map((halfLifeDays) => ({ halfLifeDays })),
    { precision: 1e9 },
  ];
  for (const more of tries) {
    const { drawn } = heldOut.score({ ...held, ...more });
    console.log(`${JSON.stringify(more)}: ${drawn.toFixed(4)}`);
  }
  for (const share of [0, 0.15, 0.3, 0.5]) {
    const given = share === 0 ? balls : withGivers(table, balls, share);
    for (const pitcherPrecision of [30, 100, 300, 1000]) {
      const settings = { ...BALL_SETTINGS, pitcherPrecision };
      const { leaned, drawn, balls: n } = scorePitchers(table, given, someBatters(table, given, 16, 400), settings);
      console.log(
        `pitchers with ${100 * share} % of one kind of ball taken away, ${n} held out, pitcherPrecision ${pitcherPrecision}: batter alone ${drawn.toFixed(4)}, leaned toward his pitcher ${(leaned - drawn).toFixed(4)} more`,
      );
    }
  }
  console.log(`chosen: ${JSON.stringify(chooseBallSettings(heldOut))}`);
}

/** Values in runs per 100 balls, on a sample as plans use it, in boxes, as the library knows no other limits. */
async function compareSearches(count: number): Promise<void> {
  const { grounds } = plannedLeague(1, 4, 5);
  const { people, teams } = grounds.data.table;
  const batters = battersSeen(grounds, 150).slice(0, count);
  await nlopt.ready;
  const margins: number[] = [];
  for (const batter of batters) {
    const asked = { batter, defence: teams[0]!, outs: 0, bases: 0, rule: 'open' } as const;
    const { settled, batterCase, even } = poseQuestion(grounds, asked);
    const { sample, random } = batterCase;
    const board = new ChanceBoard(grounds.data, sample, settled);
    const worth = sample.weight.map((weight) => 0.75 * weight);
    const question = { board, worth, others: even, moveCost: 3e-5, movers: MOVERS, limits: boxLimits() };
    const began = process.cpuUsage();
    const own = searchStarts(question, [even], 4, random).value;
    const ownS = secondsSince(began);
    const local = libraryBest(question, even, 'LN_BOBYQA', 1000);
    const again = process.cpuUsage();
    const global = libraryBest(question, even, 'GN_CRS2_LM', 4000);
    margins.push(100 * (own - Math.max(local, global)));
    console.log(
      `${people.indexOf(batter)}: own ${(100 * own).toFixed(3)} in ${ownS.toFixed(2)} s, BOBYQA ${(100 * local).toFixed(3)}, CRS2 ${(100 * global).toFixed(3)} in ${secondsSince(again).toFixed(1)} s`,
    );
  }
  console.log(
    `own less the better of the two: mean ${mean(margins).toFixed(3)}, least ${Math.min(...margins).toFixed(3)}`,
  );
}

function secondsSince(began: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1e6;
}
