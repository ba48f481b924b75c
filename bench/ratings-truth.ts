/**
 * Ratings against the demo league's truth over many leagues (method.md 10, 13).
 *   npx tsx bench/ratings-truth.ts [seeds] [balls a season]
 * Default 20 leagues of three seasons, 12 clubs and 12,500 balls a season, each scored with models of its own first two seasons. Ratings
 * are those of the end of the second; the third is there to be foretold.
 * Prints the lines of bench/RESULTS.md.
 */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { FULL } from '../src/chances/grades.ts';
import { INTERVAL_LEVELS } from '../src/ratings/intervals.ts';
import { rateTeamPlacement } from '../src/ratings/team-placement.ts';
import { correlation, mean, standardError } from '../test/truth/correlation.ts';
import { coverage, type Judged, squaresOverExpected, truthSlope } from '../test/truth/coverage.ts';
import { sharedSkillHeldOut } from '../test/truth/held-out-skill.ts';
import { type LeagueEvidence, leagueEvidence } from '../test/truth/league-evidence.ts';
import { type TwoSeasons, twoSeasonsOf } from '../test/truth/moved-men.ts';
import { type Foretold, forecastError, foretell, foretoldInside } from '../test/truth/next-season.ts';
import { evenly } from '../test/truth/replays.ts';
import { truePlacement } from '../test/truth/true-placement.ts';
import { JUDGED_KINDS, type RatedMan, ratingsAgainstTruth } from '../test/truth/true-ratings.ts';

const FIRST_SEED = 401;
const SAMPLE = { ground: 3500, air: 2500 };
const BALLS_PLACED = 8_000;
const BINS = [0, 10, 25, 50, 100, 200, Number.POSITIVE_INFINITY];
/** Men of a league who are worth a correlation. */
const FEWEST_IN_A_LEAGUE = 6;
const LEAGUES_AT_ONCE = 2;

/** All that one league has to say. */
interface Judgement {
  readonly men: readonly RatedMan[];
  readonly clubs: readonly Judged[];
  readonly pairs: readonly TwoSeasons[];
  readonly foretold: readonly Foretold[];
  readonly heldOut: ReturnType<typeof sharedSkillHeldOut>;
}

const say = (line: string) => console.log(line);
const optionsOf = (seed: number, ballsPerSeason: number) => ({ seasons: 3, teams: 12, seed, ballsPerSeason });

if (process.argv[2] === 'league') {
  process.stdout.write(JSON.stringify(judgeLeague(Number(process.argv[3]), Number(process.argv[4]))));
} else {
  const [seeds, balls] = [Number(process.argv[2] ?? 20), Number(process.argv[3] ?? 12_500)];
  const leagues: Judgement[] = [];
  let next = FIRST_SEED;
  const judgeMore = async () => {
    while (next < FIRST_SEED + seeds) {
      const seed = next++;
      leagues.push(await judgeApart(seed, balls));
      console.error(`seed ${seed}`);
      if (leagues.length % 5 === 0 && leagues.length < seeds) report(leagues, balls);
    }
  };
  await Promise.all(Array.from({ length: LEAGUES_AT_ONCE }, judgeMore));
  report(leagues, balls);
}

/** One league in a process of its own, so that two cores work. */
async function judgeApart(seed: number, balls: number): Promise<Judgement> {
  const args = ['--import', 'tsx', import.meta.filename, 'league', String(seed), String(balls)];
  const { stdout } = await promisify(execFile)(process.execPath, args, { maxBuffer: 1e9 });
  return JSON.parse(stdout);
}

function judgeLeague(seed: number, balls: number): Judgement {
  const options = optionsOf(seed, balls);
  const own = leagueEvidence(options);
  return {
    men: ratingsAgainstTruth(own, own.lastSeason - 1, SAMPLE),
    clubs: clubsAgainstTruth(own, options),
    pairs: twoSeasonsOf(own, 60),
    foretold: foretell(own),
    heldOut: sharedSkillHeldOut(own),
  };
}

/** Ratings of clubs' placement in the last season without the two-a-side rule. */
function clubsAgainstTruth(own: LeagueEvidence, options: ReturnType<typeof optionsOf>): Judged[] {
  const rated = rateTeamPlacement(own.ledgers).filter(({ season }) => season === own.lastSeason - 1);
  return [0, 1].flatMap((side) => {
    const rows = own.ledgers.flatMap(({ plays, grade }) =>
      Array.from(plays.row).filter((row, at) => grade[at] === FULL && plays.table.batterSide[row] === side),
    );
    const truth = truePlacement(own, options, evenly(rows, BALLS_PLACED), false, 3);
    return rated
      .filter((club) => club.side === side)
      .map(({ team, rating }) => ({ mean: rating.mean, sd: rating.sd, truth: truth[team]! }));
  });
}

function report(leagues: readonly Judgement[], balls: number): void {
  say(`${leagues.length} leagues from seed ${FIRST_SEED} on, ${balls} balls a season`);
  const [men, clubs, pairs, all] = [
    leagues.flatMap((league) => league.men),
    leagues.flatMap((league) => league.clubs),
    leagues.flatMap((league) => league.pairs),
    leagues.flatMap((league) => league.foretold),
  ];
  for (const kind of JUDGED_KINDS) {
    const own = men.filter((each) => each.kind === kind);
    say(`- ${kind}, all positions: ${judged(own)}`);
    for (const position of [3, 4, 5, 6, 7, 8, 9]) {
      const here = own.filter((each) => each.position === position && (kind === 'reach' || position <= 6));
      if (here.length > 0) say(`- ${kind} at ${position}: ${judged(here)}`);
    }
    BINS.slice(1).forEach((to, k) => {
      const isHere = (each: RatedMan) =>
        each.kind === kind && each.chances >= BINS[k]! && each.chances < to && (kind === 'reach' || each.position <= 6);
      const here = men.filter(isHere);
      if (here.length < 20) return;
      const inLeagues = leagues.map((league) => league.men.filter(isHere));
      say(
        `- ${kind}, ${BINS[k]} to ${to} chances: ${judged(here)}; ${ratingAndRate(here)}; ${withinLeagues(inLeagues)}`,
      );
    });
  }
  say(`- clubs' placement by batter's side: ${judged(clubs)}`);
  for (const moved of [true, false]) {
    const own = pairs.filter((pair) => pair.moved === moved);
    const r = (of: 'reach' | 'placement') =>
      correlation(
        own.map((pair) => pair[of][0]),
        own.map((pair) => pair[of][1]),
      ).toFixed(3);
    const apart = own.map(({ reach, sd }) => (reach[1] - reach[0]) / Math.hypot(sd[0], sd[1]));
    say(
      `- ${moved ? 'changed clubs' : 'stayed'}: ${own.length} pairs of seasons; r of reach ratings ${r('reach')}, of placement ${r('placement')}; change of reach rating in its standard deviations: mean ${mean(apart).toFixed(2)}, mean square ${mean(apart.map((z) => z * z)).toFixed(2)}`,
    );
  }
  const gain = (forecast: (one: Foretold) => number) => {
    const gains = leagues.map(
      ({ foretold }) => forecastError(foretold, forecast) - forecastError(foretold, (one) => one.rating),
    );
    return `${forecastError(all, forecast).toFixed(2)} (worse by ${mean(gains).toFixed(2)} +- ${standardError(gains).toFixed(2)})`;
  };
  say(
    `- next season, ${all.length} men: mean squared error of the rate by rating ${forecastError(all, (one) => one.rating).toFixed(2)}, by last year's rate ${gain((one) => one.lastYear)}, by the mean ${gain(() => 0)}`,
  );
  const inside = INTERVAL_LEVELS.map((level) => foretoldInside(all, level).toFixed(1)).join(', ');
  const outs = all.map((one) => one.outs);
  say(
    `- next season, outs: ${all.length} judged, inside 50, 80, 95 %: ${inside}; squares ${squaresOverExpected(outs).toFixed(2)}, slope ${truthSlope(outs).toFixed(2)}`,
  );
  const better = leagues.map(({ heldOut }) => heldOut.shared - heldOut.apart);
  const facets = leagues.reduce((sum, { heldOut }) => sum + heldOut.facets, 0);
  say(
    `- men of two positions, ${facets} positions and classes of balls in the last season: log likelihood with what they share less without ${mean(better).toFixed(2)} +- ${standardError(better).toFixed(2)} a league`,
  );
}

function withTruth(list: readonly RatedMan[], what: 'mean' | 'rate'): number {
  return correlation(
    list.map((each) => each[what]),
    list.map(({ truth }) => truth),
  );
}

function ratingAndRate(list: readonly RatedMan[]): string {
  return `r with truth: rating ${withTruth(list, 'mean').toFixed(3)}, plain rate ${withTruth(list, 'rate').toFixed(3)}`;
}

/** Men of one league are compared with one another, and leagues differ in how much ratings are drawn in: means of Fisher's z over leagues. */
function withinLeagues(leagues: readonly (readonly RatedMan[])[]): string {
  const own = leagues.filter((list) => list.length >= FEWEST_IN_A_LEAGUE);
  if (own.length < 2) return 'too few in any league';
  const z = (what: 'mean' | 'rate') => own.map((list) => Math.atanh(withTruth(list, what)));
  const [rating, rate] = [z('mean'), z('rate')];
  const better = rating.map((value, k) => value - rate[k]!);
  const r = (values: readonly number[]) => Math.tanh(mean(values)).toFixed(3);
  return `within a league ${r(rating)} and ${r(rate)}, z larger by ${mean(better).toFixed(3)} +- ${standardError(better).toFixed(3)}`;
}

function judged(list: readonly Judged[]): string {
  const inside = [50, 80, 95].map((level) => coverage(list, level).toFixed(1)).join(', ');
  const errors = list.filter(({ truthError }) => truthError !== undefined);
  const own =
    errors.length === 0
      ? ''
      : ` (truth's own error ${Math.sqrt(mean(errors.map(({ truthError }) => truthError! ** 2))).toFixed(2)}, intervals' ${Math.sqrt(mean(list.map(({ sd }) => sd ** 2))).toFixed(2)})`;
  return `${list.length} judged, inside 50, 80, 95 %: ${inside}; squares ${squaresOverExpected(list).toFixed(2)}, slope ${truthSlope(list).toFixed(2)}${own}`;
}
