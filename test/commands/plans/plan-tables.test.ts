import fc from 'fast-check';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { keepPlans } from '../../../src/book/keep-plans.ts';
import { type Book, openBook } from '../../../src/book/open-book.ts';
import { type KeptPlan, readPlans, toPlanTables } from '../../../src/commands/plans/plan-tables.ts';
import { planId } from '../../../src/commands/plans/plan-units.ts';
import { TEST_NOW, type TemporaryFolder, temporaryFolder } from '../../helpers/temporary-book.ts';

let folder: TemporaryFolder;
let book: Book;
beforeEach(async () => {
  folder = temporaryFolder();
  book = await openBook(folder.path, { access: 'create', command: 'test', now: TEST_NOW });
});
afterEach(async () => {
  await book.close();
  folder.remove();
});

const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => (value === 0 ? 0 : value));
const amounts = fc.record({ plan: number, even: number, own: number });
const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }).filter((each) => !/[\0\n]/.test(each));
const plan = fc.record({
  question: fc.record({
    batter: text,
    side: fc.constantFrom('L' as const, 'R' as const),
    defence: text,
    outs: fc.integer({ min: 0, max: 2 }),
    bases: fc.integer({ min: 0, max: 7 }),
    rule: fc.constantFrom('two-a-side' as const, 'open' as const),
  }),
  balls: fc.nat(500),
  spots: fc.tuple(number, number, number, number, number, number),
  men: fc.array(fc.option(text), { minLength: 4, maxLength: 4 }),
  outs_per_100: amounts,
  runs_per_100: amounts,
  gain: fc.record({ value: number, lo80: number, hi80: number }),
  costs: number,
  warnings: fc.array(text, { maxLength: 3 }),
});

it('gives back the plans that were kept, to the last bit', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(plan, { maxLength: 5 }), async (drawn) => {
      const kept = new Map(
        drawn.map(({ question, spots: [sx, sy, ex, ey, ox, oy], ...more }): [string, KeptPlan] => [
          planId(question),
          {
            id: planId(question),
            question,
            buildId: '000007',
            plan: {
              ...question,
              runners: '1-3',
              balls: more.balls,
              starts: more.men.map((fielder_id, k) => ({
                position: k + 3,
                fielder_id,
                start_x_ft: sx,
                start_y_ft: sy,
                even_x_ft: ex,
                even_y_ft: ey,
                own_x_ft: ox,
                own_y_ft: oy,
              })),
              outs_per_100: more.outs_per_100,
              runs_per_100: more.runs_per_100,
              gain_runs_per_100: more.gain,
              cost_of_error: [3, 4, 5, 6].map((position) => ({ position, feet: 3, runs_per_100: more.costs })),
              warnings: more.warnings,
            },
          },
        ]),
      );
      await keepPlans(book, toPlanTables([...kept.values()]));
      const read = await readPlans(book.store, [...kept.keys()]);
      for (const [id, { plan: expected, ...rest }] of kept) {
        const { bases: _, ...shown } = expected as typeof expected & { bases: number };
        expect(read.get(id)).toEqual({ ...rest, plan: shown });
      }
      expect(read.size).toBe(kept.size);
    }),
    { numRuns: 15 },
  );
});

it('names a question by what is asked, in whatever order and with whatever left out', () => {
  const question = { batter: 'b', side: 'L', defence: 'D', outs: 1, bases: 5, rule: 'open' } as const;
  const turned = { rule: 'open', bases: 5, outs: 1, defence: 'D', side: 'L', batter: 'b', depth: undefined } as const;
  expect(planId(turned)).toBe(planId(question));
  expect(planId({ ...question, outs: 2 })).not.toBe(planId(question));
});
