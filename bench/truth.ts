/**
 * The method against the demo league's truth, with more of everything than the tests have (method.md 13).
 *   npx tsx bench/truth.ts [seeds]
 * Default 30 further leagues of one season, scored with the models of the default league. Prints the lines of
 * bench/RESULTS.md.
 */
import { scoreLeague } from '../test/helpers/scored-league.ts';
import { correlation, mean, partialCorrelation, rootMeanSquare, standardError } from '../test/truth/correlation.ts';
import { type ManAndNeighbour, menAndNeighbours } from '../test/truth/neighbours.ts';
import { openingGroups } from '../test/truth/openings.ts';
import { overshiftEntries } from '../test/truth/overshifts.ts';
import { evenly, fullPlays, isOvershift, placementAgainstReplays, setAgainstReplays } from '../test/truth/replays.ts';
import { menAt } from '../test/truth/season-rates.ts';

const SEEDS = Number(process.argv[2] ?? 30);
const FIRST_SEED = 201;
const POSITIONS = { 3: 'first base', 4: 'second base', 5: 'third base', 6: 'shortstop' } as const;
const PAIRS = [
  [6, 5, 'shortstop, third base beside him'],
  [4, 3, 'second base, first base beside him'],
  [6, 1, 'shortstop, the pitcher before him'],
  [4, 1, 'second base, the pitcher before him'],
] as const;

const say = (line: string) => console.log(line);
const three = (value: number) => value.toFixed(3);
const withError = (values: readonly number[]) => `${mean(values).toFixed(4)} +- ${standardError(values).toFixed(4)}`;

const scored = scoreLeague({ seasons: 3, teams: 12, seed: 1, twoASideFrom: 2034 });
say(
  `Default league, three seasons without a rule year, seed 1: ${scored.grounders.count} grounders, ${fullPlays(scored).length} full`,
);

const plays = evenly(fullPlays(scored), 6000);
const { set, replayed } = setAgainstReplays(scored, plays, 200);
say(
  `- set mark against 200 replays, average men, ${plays.length} plays: r ${three(correlation(set, replayed))}, root mean square error ${three(rootMeanSquare(set, replayed))}, mean difference ${(mean(set) - mean(replayed)).toFixed(4)}`,
);

for (const [name, keep] of [
  ['in overshift', (at: number) => isOvershift(scored, at)],
  ['otherwise', (at: number) => !isOvershift(scored, at)],
] as const) {
  const list = evenly(fullPlays(scored, keep), 600);
  const found = placementAgainstReplays(scored, list, 20);
  const off = found.placement.map((value, k) => value - found.replayed[k]!);
  say(
    `- placement against replayed gain, ${list.length} plays ${name}: r ${three(correlation(found.placement, found.replayed))}, mean gain replayed ${mean(found.replayed).toFixed(4)}, bias ${withError(off)}`,
  );
}

const groups = openingGroups(scored, 1000);
const chiSquare = groups.reduce((sum, { z }) => sum + z * z, 0);
const worst = groups.reduce((a, b) => (Math.abs(b.z) > Math.abs(a.z) ? b : a));
const worstClosed = groups.reduce((a, b) => (Math.abs(b.closedZ) > Math.abs(a.closedZ) ? b : a));
say(
  `- direct opening against opening mark, ${groups.length} groups of 1,000 and more by side and ten degrees: chi-square ${chiSquare.toFixed(1)}, largest z ${worst.z.toFixed(2)} (${worst.name}); outs made against the opening mark: largest z ${worstClosed.closedZ.toFixed(2)} (${worstClosed.name})`,
);

for (const [position, name] of Object.entries(POSITIONS)) {
  const men = menAt(scored, Number(position));
  const reached = men.filter(({ chances }) => chances >= 150);
  const finished = men.filter(({ gathers }) => gathers >= 100);
  const reach = correlation(
    reached.map((man) => man.reach),
    reached.map((man) => man.trueReach),
  );
  const finish = correlation(
    finished.map((man) => man.finish),
    finished.map((man) => man.trueFinish),
  );
  say(
    `- ${name}: reach a chance with true reach r ${three(reach)} (${reached.length} men, 150 chances and more); finish a gather with true finish r ${three(finish)} (${finished.length} men, 100 gathers and more)`,
  );
}

const men: ManAndNeighbour[][] = PAIRS.map(() => []);
const shifts = [0, 1].map((side) => overshiftEntries(scored, side));
for (let seed = FIRST_SEED; seed < FIRST_SEED + SEEDS; seed += 1) {
  const league = scoreLeague({ seasons: 1, teams: 12, seed }, scored.models);
  PAIRS.forEach(([position, beside], k) => {
    men[k]!.push(...menAndNeighbours(league, position, beside, 100));
  });
  for (const side of [0, 1]) {
    const found = overshiftEntries(league, side);
    shifts[side]!.placement.push(...found.placement);
    shifts[side]!.reach.push(...found.reach);
  }
  console.error(`seed ${seed}`);
}

say(`${SEEDS} further leagues of one season (seeds ${FIRST_SEED} to ${FIRST_SEED + SEEDS - 1}), the same models`);
PAIRS.forEach(([, , name], k) => {
  const list = men[k]!;
  const beside = list.map(({ neighbourReach }) => neighbourReach);
  const own = list.map(({ trueReach }) => trueReach);
  const against = (credit: 'reach' | 'naive') =>
    three(
      partialCorrelation(
        list.map((man) => man[credit]),
        beside,
        own,
      ),
    );
  say(
    `- ${name}, ${list.length} men with 100 chances and more: with the other man's true reach, own true reach taken out, reach r ${against('reach')}, naive credit r ${against('naive')} (standard error ${three(1 / Math.sqrt(list.length - 3))})`,
  );
});
['left', 'right'].forEach((name, side) => {
  const { placement, reach } = shifts[side]!;
  say(
    `- overshifts against ${name}-handed batters, ${placement.length} plays of all leagues: placement ${withError(placement)}, reach ${withError(reach)} outs a play`,
  );
});
