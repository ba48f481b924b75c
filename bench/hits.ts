/**
 * Which hit a ball would be, out of sample: one multinomial logit against two nested regressions (docs/decisions/023-hit-types.md).
 *   npx tsx bench/hits.ts [seed] [seasons]
 * Five folds over the games of the demo league; mean log loss of single, double, triple a hit, and the difference a hit
 * with its standard error over games.
 */
import { chanceFit } from '../src/chances/fit-chance.ts';
import type { PlayTable } from '../src/chances/play-table.ts';
import { BALL_KINDS } from '../src/diamond/play-codes.ts';
import { simulateLeague } from '../src/league/simulate-league.ts';
import { hitFits, hitOf, hitRows, predictHits } from '../src/ledger/runs/hit-model.ts';
import { predictMean } from '../src/models/fitted-model.ts';
import { fitHere } from '../src/models/fitting.ts';
import type { Term } from '../src/models/terms.ts';
import { hashText } from '../src/numeric/hash.ts';

const FOLDS = 5;
const seed = Number(process.argv[2] ?? 1);
const seasons = Number(process.argv[3] ?? 3);
const { plays } = simulateLeague({ seasons, teams: 12, seed });
const foldOf = plays.games.map((id) => (hashText(id, 1) >>> 0) % FOLDS);
const GROUPS: readonly (readonly number[])[] = [['ground', 'bunt'], ['liner'], ['fly', 'popup']].map((kinds) =>
  kinds.map((kind) => BALL_KINDS.indexOf(kind as 'fly')),
);
const say = (line: string) => console.log(line);

type Predict = (train: PlayTable, rows: readonly number[], trainRows: readonly number[]) => Float64Array;

/** The plays of some rows by themselves: everything else counts as an out, from which nothing is learnt. */
function only(rows: readonly number[]): PlayTable {
  const kept = new Set(rows);
  return { ...plays, outsMade: plays.outsMade.map((outs, row) => (kept.has(row) ? outs : 1)) };
}

const multinomial =
  (keep: (term: Term) => boolean): Predict =>
  (train, rows) =>
    predictHits(fitHere(hitFits(train, { terms: (_, own) => own.filter(keep) })), plays, rows);

/** Extra bases given a hit, triple given extra bases: what stood here before. */
const nested: Predict = (_, rows, trainRows) => {
  const out = new Float64Array(rows.length * 3);
  const columns = (own: readonly number[]) => ({
    bearing: Float64Array.from(own, (row) => plays.bearingDeg[row]!),
    speed: Float64Array.from(own, (row) => plays.exitSpeedMph[row]!),
    kind: Uint8Array.from(own, (row) => plays.ballKind[row]!),
    park: Int32Array.from(own, (row) => plays.park[row]!),
  });
  const bearing = (segments: number) => ({ covariate: 'bearing', lo: -46, hi: 46, segments });
  const speed = { covariate: 'speed', lo: 20, hi: 120, segments: 4 };
  const levels: Term[] = [
    { kind: 'random', covariate: 'kind', levels: BALL_KINDS.length },
    { kind: 'random', covariate: 'park', levels: plays.parks.length },
  ];
  GROUPS.forEach((kinds, g) => {
    const mine = (row: number) => kinds.includes(plays.ballKind[row]!);
    const chance = (
      name: string,
      least: number,
      own: readonly number[],
      terms: readonly Term[],
      asked: readonly number[],
    ) => {
      const response = Float64Array.from(own, (row) => (hitOf(plays, row) >= least ? 1 : 0));
      const data = { count: own.length, covariates: columns(own), response };
      const model = fitHere(chanceFit(`${name} ${g}`, terms, () => data));
      return predictMean(model, columns(asked), asked.length);
    };
    const own = trainRows.filter(mine);
    const places = [...rows.keys()].filter((k) => mine(rows[k]!));
    const asked = places.map((k) => rows[k]!);
    const extra = chance('extra', 1, own, [{ kind: 'tensor', margins: [bearing(16), speed] }, ...levels], asked);
    const long = own.filter((row) => hitOf(plays, row) > 0);
    const smooths: Term[] = [bearing(10), speed].map((margin) => ({ kind: 'smooth', margin }));
    const triple = chance('triple', 2, long, [...smooths, ...levels], asked);
    places.forEach((k, i) => {
      out[3 * k] = 1 - extra[i]!;
      out[3 * k + 1] = extra[i]! * (1 - triple[i]!);
      out[3 * k + 2] = extra[i]! * triple[i]!;
    });
  });
  return out;
};

const MODELS: Readonly<Record<string, Predict>> = {
  nested,
  'multinomial, park': multinomial((term) => !(term.kind === 'random' && term.covariate === 'wall')),
  'multinomial, park and wall': multinomial(() => true),
};

const all = hitRows(plays);
const loss = Object.fromEntries(Object.keys(MODELS).map((name) => [name, new Float64Array(plays.count)]));
for (let fold = 0; fold < FOLDS; fold += 1) {
  const [rows, rest] = [
    all.filter((row) => foldOf[plays.game[row]!] === fold),
    all.filter((row) => foldOf[plays.game[row]!] !== fold),
  ];
  for (const [name, predict] of Object.entries(MODELS)) {
    const start = process.cpuUsage();
    const chances = predict(only(rest), rows, rest);
    rows.forEach((row, k) => {
      loss[name]![row] = -Math.log(Math.max(chances[3 * k + hitOf(plays, row)]!, 1e-12));
    });
    if (fold === 0) say(`${name}: ${(process.cpuUsage(start).user / 1e6).toFixed(1)} processor seconds a fold`);
  }
}
for (const [g, kinds] of [...GROUPS, GROUPS.flat()].entries()) {
  const rows = all.filter((row) => kinds.includes(plays.ballKind[row]!));
  const mean = (name: string) => rows.reduce((sum, row) => sum + loss[name]![row]!, 0) / rows.length;
  say(`${['ground', 'liner', 'fly', 'all'][g]}: ${rows.length} hits`);
  for (const name of Object.keys(MODELS)) {
    const byGame = new Map<number, number>();
    for (const row of rows) {
      const game = plays.game[row]!;
      byGame.set(game, (byGame.get(game) ?? 0) + loss[name]![row]! - loss.nested![row]!);
    }
    const error = Math.sqrt([...byGame.values()].reduce((sum, d) => sum + d * d, 0)) / rows.length;
    say(
      `  ${name.padEnd(28)} ${mean(name).toFixed(5)}  against nested ${(mean(name) - mean('nested')).toFixed(5)} +- ${error.toFixed(5)}`,
    );
  }
}
