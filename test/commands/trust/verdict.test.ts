import { expect, test } from 'vitest';
import type { TrustEvidence } from '../../../src/commands/trust/evidence.ts';
import { judge } from '../../../src/commands/trust/verdict.ts';
import { inventedEvidence } from '../../helpers/trust-report.ts';

const clean = inventedEvidence();
const data = (changes: Partial<TrustEvidence['data']>) => ({ ...clean, data: { ...clean.data, ...changes } });
const uses = (evidence: TrustEvidence) => judge(evidence).uses;
const texts = (evidence: TrustEvidence) => judge(evidence).findings.map(({ text }) => text);

test('with nothing to complain of the answer is yes', () => {
  expect(judge(clean)).toEqual({
    answer: 'yes',
    uses: { placement: 'yes', reach: 'yes', finish: 'yes' },
    findings: [],
  });
});

test('too few grounders: no; few: with care; marks that miss plays: with care', () => {
  const of = (grounders: number) =>
    judge({ ...data({ marked: grounders, grades: [{ name: 'full', plays: grounders }], flags: [] }), grounders })
      .answer;
  expect([999, 1000, 2999, 3000].map(of)).toEqual(['no', 'care', 'care', 'yes']);
  expect(texts({ ...clean, grounders: 9001 })).toEqual([expect.stringMatching(/Build it again/)]);
});

test('a fit that did not arrive: no', () => {
  const [model] = clean.models;
  const models = [{ ...model!, record: { ...model!.record, stopped: 'iteration limit' as const } }];
  expect(judge({ ...clean, models }).answer).toBe('no');
});

test('a finish that is no better than a table bears on reach and finish, not on placement', () => {
  const quality = clean.quality.map((each) =>
    each.question === 'finish' && each.position === 0
      ? { ...each, better: { ...each.better, bins: { mean: 0.001, se: 0.001 } } }
      : each,
  );
  expect(uses({ ...clean, quality })).toEqual({ placement: 'yes', reach: 'no', finish: 'no' });
});

test('an additive model ahead by two standard errors: with care; by less: chance', () => {
  const withLead = (mean: number) =>
    clean.quality.map((each) =>
      each.question === 'opening' ? { ...each, better: { ...each.better, additive: { mean, se: 0.001 } } } : each,
    );
  expect(uses({ ...clean, quality: withLead(-0.0021) })).toEqual({ placement: 'care', reach: 'yes', finish: 'yes' });
  expect(judge({ ...clean, quality: withLead(-0.0019) }).answer).toBe('yes');
});

test('chances that are off: with care, with the tenth and the place named', () => {
  const bent = inventedEvidence({}, 0.35);
  expect(judge(bent).answer).toBe('care');
  expect(texts(bent).join('\n')).toMatch(
    /groups of like chances are off, most where \d+ % was said and \d+ % happened/,
  );
  expect(texts(bent).join('\n')).toMatch(/places are off, most at bearing/);
});

test('a large shift, no travel times', () => {
  const balance = clean.balance.map((each) => ({ ...each, gathered: 0.12, large: ['gathered' as const] }));
  expect(uses({ ...clean, balance })).toEqual({ placement: 'yes', reach: 'care', finish: 'care' });
  expect(uses({ ...clean, travel: null })).toEqual({ placement: 'care', reach: 'care', finish: 'yes' });
});

test('what the data lack', () => {
  const grades = (full: number) =>
    data({
      grades: [
        { name: 'full', plays: full },
        { name: 'ground', plays: 9000 - full },
      ],
    });
  expect(uses(grades(7000))).toEqual({ placement: 'care', reach: 'care', finish: 'yes' });
  expect(uses(grades(4000))).toEqual({ placement: 'no', reach: 'no', finish: 'yes' });
  expect(uses(data({ flags: [{ name: 'no_gather_time', plays: 2000 }] }))).toEqual({
    placement: 'yes',
    reach: 'care',
    finish: 'care',
  });
  expect(texts(data({ setAside: 5000 }))).toEqual([
    expect.stringMatching(/5000 of 200000 rows were set aside, most often because: not a number/),
  ]);
});
