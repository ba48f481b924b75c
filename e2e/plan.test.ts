import { describe, expect, inject, it } from 'vitest';
import { fromSetModelsFile, type SetModelsFile } from '../src/ledger/set-models.ts';
import type { PlanModels } from '../src/plans/chance-board.ts';
import { WhatIfPlan } from '../src/plans/what-if-plan.ts';
import type { FailureAnswer, PlanAnswer, PlanCaseAnswer, ViewAnswer } from '../src/server/answers.ts';

const address = inject('address');
const OURS = { origin: address, 'x-leatherbook': '1' };

/** Answers of the server itself, beside what the page makes of them. */
async function ask<T>(path: string, options: RequestInit = {}, status = 200): Promise<T> {
  const response = await fetch(`${address}${path}`, options);
  expect(response.status, path).toBe(status);
  return (await response.json()) as T;
}

async function someBatter(): Promise<{ readonly batter: string; readonly defence: string }> {
  const { columns } = await ask<ViewAnswer>('/api/batters');
  const column = (name: string) => columns.find((each) => each.name === name)!.values;
  const teams = column('team') as readonly string[];
  const defence = teams.find((team) => team !== teams[0])!;
  return { batter: String(column('batter_id')[0]), defence };
}

async function readModels(): Promise<PlanModels> {
  const [ground, air] = await Promise.all(
    ['ground', 'air'].map(async (each) => fromSetModelsFile(await ask<SetModelsFile>(`/api/models/${each}`))),
  );
  if (ground?.ballClass !== 'ground' || air?.ballClass !== 'air') throw new Error('models of another class');
  return { grounders: ground.infield, air };
}

describe('what the server says of a plan', () => {
  it.each([
    ['average men', '&runners=1--&outs=1'],
    ['own men and the outfield', '&own_men=yes&outfield=yes&runners=-2-'],
    ['no rule', '&rule=open'],
  ])('is what a page reckons from the case and the models, to the last bits: %s', async (_, more) => {
    const { batter, defence } = await someBatter();
    const query = `?batter=${batter}&defence=${encodeURIComponent(defence)}${more}`;
    const { planCase } = await ask<PlanCaseAnswer>(`/api/plan${query}`);
    const { plan } = await ask<PlanAnswer>(`/api/plan${query}`, { method: 'POST', headers: OURS });
    const whatIf = new WhatIfPlan(await readModels(), planCase);
    const planned = Float64Array.from(planCase.even);
    for (const { position, start_x_ft, start_y_ft } of plan.starts)
      planned.set([start_x_ft, start_y_ft], 2 * position - 2);
    const worths = { plan: whatIf.worth(planned), even: whatIf.worth(planCase.even), own: whatIf.worth(planCase.own) };
    for (const which of ['plan', 'even', 'own'] as const) {
      expect(Math.abs(worths[which].runs - plan.runs_per_100[which]), which).toBeLessThan(1e-9);
      expect(Math.abs(worths[which].outs - plan.outs_per_100[which]), which).toBeLessThan(1e-9);
    }
    for (const bound of ['value', 'lo80', 'hi80'] as const)
      expect(Math.abs(worths.plan.gainOnEven[bound] - plan.gain_runs_per_100[bound]), bound).toBeLessThan(1e-9);
    // One man after another, as they are dragged, comes to the same as all at once.
    const step = Float64Array.from(planCase.own);
    for (const { position, start_x_ft, start_y_ft } of plan.starts) {
      step.set([start_x_ft, start_y_ft], 2 * position - 2);
      whatIf.worth(step);
    }
    for (let k = 0; k < step.length; k += 1) step[k] = planned[k]!;
    expect(whatIf.worth(step)).toEqual(worths.plan);
  });

  it('refuses what means nothing, and tells how to put it right', async () => {
    const { batter, defence } = await someBatter();
    const known = `batter=${batter}&defence=${encodeURIComponent(defence)}`;
    for (const [query, status, said] of [
      ['', 400, /batter/],
      [`?${known}&outs=3`, 400, /outs is one of 0, 1, 2/],
      [`?${known}&runners=4`, 400, /runners is occupied bases/],
      [`?${known}&swap=shortstop`, 400, /swap is a position and a man/],
      [`?batter=nobody&defence=${defence}`, 422, /knows no batter nobody/],
      [`?batter=${batter}&defence=Nowhere`, 422, /knows no club Nowhere/],
    ] as const) {
      const { error } = await ask<FailureAnswer>(`/api/plan${query}`, {}, status);
      expect(error.message, query).toMatch(said);
      expect(error.remedy, query).not.toBe('');
    }
    const card = { method: 'POST', headers: OURS, body: '{"batter":"x"}' };
    const { error } = await ask<FailureAnswer>('/api/plan/card', card, 400);
    expect(error.message).toMatch(/no pocket card/);
  });
});
