import { z } from 'zod';
import { ExpectedFailure } from '../expected-failure.ts';
import type { CardPlan } from '../plans/card/card-words.ts';

const MOST_WORDS = 500;
const text = z.string().max(MOST_WORDS);
const feet = z.number().gte(-500).lte(500);

/** What a pocket card shows; starts may be others than those of a plan. */
const CARD = z.object({
  batter: text,
  side: text,
  defence: text,
  outs: z.number().int().gte(0).lte(2),
  runners: z.string().regex(/^[-1][-2][-3]$/),
  rule: text,
  balls: z.number().int().gte(0),
  starts: z
    .array(
      z.object({
        position: z.number().int().gte(1).lte(9),
        fielder_id: text.nullable(),
        start_x_ft: feet,
        start_y_ft: feet,
        even_x_ft: feet,
        even_y_ft: feet,
      }),
    )
    .min(1)
    .max(9),
  gain_runs_per_100: z.object({ value: z.number(), lo80: z.number(), hi80: z.number() }),
  warnings: z.array(text).max(30),
});

/** @throws ExpectedFailure `usage` for a text that is no card */
export function readCard(json: string): CardPlan {
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch {
    data = undefined;
  }
  const read = CARD.safeParse(data);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new ExpectedFailure(
    'usage',
    `This is no pocket card: ${issue?.path.join('.') || 'all of it'} ${issue?.message}.`,
    'Print it from the page Plan.',
  );
}
