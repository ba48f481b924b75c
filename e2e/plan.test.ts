import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { fromSetModelsFile, type SetModelsFile } from '../src/ledger/set-models.ts';
import type { PlanModels } from '../src/plans/chance-board.ts';
import { WhatIfPlan } from '../src/plans/what-if-plan.ts';
import type { FailureAnswer, PlanAnswer, PlanCaseAnswer, ViewAnswer } from '../src/server/answers.ts';
import { useBrowser } from './browser.ts';
import { demo } from './demo.ts';

const address = demo.address;
const OURS = { origin: address, 'x-leatherbook': '1' };
const browser = useBrowser();

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
    ['own men, the outfield, no rule', '&own_men=yes&outfield=yes&runners=-2-&rule=open'],
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

/** What the page says of the starts on it. */
const worthOn = async (page: Page, name: 'runs' | 'gain') =>
  Number(await page.locator('[data-gain]').getAttribute(`data-${name}`));
const discOf = (page: Page, position: number) =>
  page.locator('svg g[role=button]').filter({ has: page.locator(`text="${position}"`) });
const openPlan = async (query = '') => {
  const watched = await browser.open(`/plan${query}`, { permissions: ['clipboard-read', 'clipboard-write'] });
  await watched.page.locator('[data-gain]').waitFor();
  return watched;
};

describe('the page Plan', () => {
  it('opens on a question; a start that is dragged has its runs under the pointer within 16 ms, and the link restores it', async () => {
    const { page, close, complaints, outside } = await openPlan();
    const before = await worthOn(page, 'runs');
    const box = (await discOf(page, 6).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let step = 1; step <= 60; step += 1) await page.mouse.move(x - step, y + step / 3);
    await page.mouse.up();
    const dragged = await worthOn(page, 'runs');
    expect(dragged).not.toBe(before);
    const took = await page.evaluate(() => performance.getEntriesByName('move-drawn').map(({ duration }) => duration));
    expect(took.length).toBeGreaterThan(20);
    took.sort((a, b) => a - b);
    // The middle one: other work of a busy machine falls on single moves.
    expect(took[Math.floor(took.length / 2)]).toBeLessThan(16);

    await page.getByRole('button', { name: 'Copy link' }).click();
    await page.getByRole('button', { name: 'Link copied' }).waitFor();
    const link = new URL(await page.evaluate(() => navigator.clipboard.readText()));
    expect(link.search).toMatch(/starts=6_/);
    const again = await openPlan(link.search);
    expect(await worthOn(again.page, 'runs')).toBe(dragged);
    await again.page.getByRole('button', { name: 'Back to the club’s own' }).click();
    expect(await worthOn(again.page, 'runs')).toBe(before);
    expect([...complaints, ...outside, ...again.complaints]).toEqual([]);
    await again.close();
    await close();
  });

  it('solves: the worth on the page is the plan’s; what is asked otherwise is asked anew; the card comes as SVG and PDF', async () => {
    const { batter, defence } = await someBatter();
    const query = `?batter=${batter}&defence=${encodeURIComponent(defence)}`;
    const { page, close, complaints } = await openPlan(query);
    await page.getByRole('button', { name: 'Solve' }).click();
    await page.getByText('The plan:').first().waitFor();
    const { plan } = await ask<PlanAnswer>(`/api/plan${query}`, { method: 'POST', headers: OURS });
    expect(Math.abs((await worthOn(page, 'gain')) - plan.gain_runs_per_100.value)).toBeLessThan(1e-9);
    await page.waitForURL(/plan=yes/);
    const costs = await page.locator('[role=gridcell][data-column="4"]').allInnerTexts();
    for (const [at, { runs_per_100: cost }] of plan.cost_of_error.entries())
      expect(Math.abs(Number(costs[at]) - cost)).toBeLessThan(0.0051);

    await page.getByText('Pocket card of these starts').click();
    for (const [kind, begins] of [
      ['SVG', '<svg'],
      ['PDF', '%PDF-'],
    ]) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: `Pocket card: save as ${kind}` }).click(),
      ]);
      expect(download.suggestedFilename()).toMatch(new RegExp(`\\.${kind!.toLowerCase()}$`));
      expect(readFileSync(await download.path(), 'latin1').startsWith(begins!), kind).toBe(true);
    }

    // On paper the card is alone; nothing takes it away here because nothing is printed.
    await page.evaluate(() => Object.assign(window, { print: () => {} }));
    await page.getByRole('button', { name: 'Print' }).click();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.printed-card > svg').isVisible()).toBe(true);
    expect(await page.getByRole('heading', { level: 1 }).isVisible()).toBe(false);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: 'screen' });

    await page.getByRole('button', { name: 'first', exact: true }).click();
    await page.getByText('nobody out, runner on first').first().waitFor();
    expect(new URL(page.url()).search).not.toContain('plan=yes');
    await page.goBack();
    await page.getByText('nobody out, nobody on').first().waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('can be walked through with the keyboard alone', async () => {
    const { page, close } = await openPlan();
    const before = await worthOn(page, 'runs');
    const reached: string[] = [];
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press('Tab');
      const name = await page.evaluate(
        () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim() ?? '',
      );
      reached.push(name);
      if (!/^6 shortstop/.test(name)) continue;
      for (let step = 0; step < 3; step += 1) await page.keyboard.press('Shift+ArrowLeft');
      expect(await worthOn(page, 'runs')).not.toBe(before);
      await page.keyboard.press('Escape');
      expect(await worthOn(page, 'runs')).toBe(before);
    }
    for (const wanted of [/^Two a side/, /^3 first base/, /^6 shortstop/, /^Solve/, /^Copy link/, /Pocket card/])
      expect(
        reached.some((name) => wanted.test(name)),
        String(wanted),
      ).toBe(true);
    await close();
  });

  it('says whom the book does not know, and what starts break', async () => {
    const { page, close } = await browser.open('/plan?batter=nobody');
    await page.getByText('The book knows no batter nobody').waitFor();
    await page.goto(`${address}/plan?starts=6_300_1300*3_-600_600`);
    await page.getByText('Position 6: the rule wants two a side').waitFor();
    await page.getByText('Nobody is near enough to first base').waitFor();
    await close();
  });
});
