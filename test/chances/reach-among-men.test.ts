import { expect, test } from 'vitest';
import { collectChanceRows } from '../../src/chances/chance-rows.ts';
import { beginningAt, nameFits } from '../../src/chances/fit-choices.ts';
import { infieldFits } from '../../src/chances/grounder-models.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { reachAmongMen } from '../../src/chances/reach-among-men.ts';
import { type FittedModel, predictLinear } from '../../src/models/fitted-model.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { slope } from '../helpers/slope.ts';
import { AWAY, type Fabricated, fabricatePlays } from './fabricated-plays.ts';

/** Shortstops of sixteen clubs, each of whom sees balls go by at a gap of his own; all gaps are alike. */
const random = createRandom(8);
const men = Array.from({ length: 16 }, (_, k) => ({ club: `Club ${k}`, skill: random.normal(), x: -58 + 2.4 * k }));
const ball = (x: number, gathered: boolean): Fabricated => ({
  starts: { ...AWAY, 6: [x, 142] },
  gatheredBy: gathered ? 6 : 0,
  outs: gathered ? 1 : 0,
});
const plays = selectGrounders(
  fabricatePlays(
    men.flatMap(({ club, skill, x }) =>
      Array.from({ length: 120 }, () => ({ club, ...ball(x, random.next() < 1 / (1 + Math.exp(-skill))) })),
    ),
  ),
);
const models = fitHere(infieldFits(plays));
const asked = selectGrounders(fabricatePlays(men.map(({ club, x }) => ({ club, ...ball(x, true) }))));

/** How much of a man's skill is in what the average man is said to do in his place. */
function skillLeftInPlaces(reach: FittedModel): number {
  const { covariates, count } = collectChanceRows(asked, models.travel)[5]!;
  const logits = predictLinear(reach, { ...covariates, man: new Uint8Array(count) }, count);
  expect(count).toBe(men.length);
  return slope(
    [...logits],
    men.map(({ skill }) => skill),
  );
}

const amongMen = fitHere(reachAmongMen(plays, models));

test('among men, one who always stands at the same spot leaves his skill out of the chances there', () => {
  // The book's own surfaces bend to their men, by 0.17.
  expect(skillLeftInPlaces(models.positions[5]!.reach)).toBeGreaterThan(0.1);
  expect(Math.abs(skillLeftInPlaces(amongMen[5]!))).toBeLessThan(0.05);
});

test('a fit among as many men begins where the last one ended, and ends there', () => {
  const again = fitHere(reachAmongMen(plays, models, beginningAt(nameFits(amongMen))))[5]!;
  const { covariates, count } = collectChanceRows(asked, models.travel)[5]!;
  const logits = (fit: FittedModel) => predictLinear(fit, { ...covariates, man: new Uint8Array(count) }, count);
  const before = logits(amongMen[5]!);
  const moved = logits(again).map((logit, k) => Math.abs(logit - before[k]!));
  expect(Math.max(...moved)).toBeLessThan(0.01);
  expect(again.record.iterations).toBeLessThan(amongMen[5]!.record.iterations / 2);
});
