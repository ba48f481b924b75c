import { describe, expect, it } from 'vitest';
import { fitMultinomial, predictCategories } from '../../src/models/fit-multinomial.ts';
import { createRandom } from '../../src/numeric/random.ts';

const random = createRandom(12);
const count = 1200;
const x = Float64Array.from({ length: count }, () => random.next());
const category = Array.from(x, (v) => {
  const u = random.next();
  const middle = 0.2 + 0.5 * Math.sin(Math.PI * v);
  return u < middle ? 1 : u < middle + (1 - middle) * v ? 2 : 0;
});
const terms = [{ kind: 'smooth', margin: { covariate: 'x', lo: 0, hi: 1, segments: 8 } }] as const;
const spec = { name: 'three', terms, categories: 3 };

describe('a multinomial logit', () => {
  const model = fitMultinomial(spec, { count, covariates: { x }, category });
  const chances = predictCategories(model, { x }, count);

  it('stands at a zero of the score: each category is expected as often as it came', () => {
    expect(model.record.gradientNorm).toBeLessThan(1e-9);
    for (let k = 0; k < 3; k += 1) {
      const came = category.filter((own) => own === k).length;
      expect(chances[k].reduce((sum, p) => sum + p, 0)).toBeCloseTo(came, 4);
    }
  });

  it('gives chances that sum to one and lie near the truth', () => {
    let squares = 0;
    for (let row = 0; row < count; row += 1) {
      expect(chances[0][row] + chances[1][row] + chances[2][row]).toBeCloseTo(1, 12);
      squares += (chances[1][row] - (0.2 + 0.5 * Math.sin(Math.PI * x[row]))) ** 2;
    }
    expect(Math.sqrt(squares / count)).toBeLessThan(0.05);
  });

  it('does not depend on which category is the first, when smoothing plays no part', () => {
    const settings = { fixedSmoothing: [1e-6, 1e-6] };
    const data = { count, covariates: { x } };
    const a = predictCategories(fitMultinomial(spec, { ...data, category }, settings), { x }, count);
    const turned = category.map((own) => (own + 1) % 3);
    const b = predictCategories(fitMultinomial(spec, { ...data, category: turned }, settings), { x }, count);
    for (let row = 0; row < count; row += 1) expect(b[1][row]).toBeCloseTo(a[0][row], 3);
  });

  it('refuses categories that are not there, and monotone terms', () => {
    const data = { count: 2, covariates: { x: [0, 1] } };
    expect(() => fitMultinomial(spec, { ...data, category: [0, 3] })).toThrow(/0 to 2, received 3 in row 1/);
    expect(() => fitMultinomial({ ...spec, categories: 1 }, { ...data, category: [0, 0] })).toThrow(/received 1/);
    const held = [{ kind: 'smooth', margin: { ...terms[0].margin, monotone: 'increasing' } }] as const;
    expect(() => fitMultinomial({ ...spec, terms: held }, { ...data, category: [0, 1] })).toThrow(/no monotone/);
  });
});
