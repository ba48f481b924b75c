import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Jobs, Outcome, Unit } from '../../src/jobs/jobs.ts';
import type { Sum } from './adding-worker.ts';

type Added = { readonly sum: number };

export interface OpenJobs {
  readonly jobs: Jobs<Sum, Added>;
  close(): Promise<void>;
}

/** Seconds to wait for a worker before it is taken for dead: soon where one is killed, else longer than any test. */
const SOON_S = 1;
const LATE_S = 60;

/** What every implementation of Jobs must do; run on each of them, with two workers. */
export function describeJobs(label: string, openWith: (claimS: number) => Promise<OpenJobs>): void {
  describe(`jobs contract: ${label}`, () => {
    let opened: OpenJobs | undefined;
    let notes = '';
    beforeEach(() => {
      notes = mkdtempSync(join(tmpdir(), 'leatherbook-jobs-'));
    });
    const open = async (claimS: number) => {
      opened = await openWith(claimS);
      return opened.jobs;
    };
    afterEach(async () => {
      await opened?.close();
      rmSync(notes, { recursive: true, force: true });
    });

    const unit = (n: number, more: Partial<Sum> = {}): Unit<Sum> => ({
      key: `unit ${n}`,
      question: { terms: [n, 1000], notes, ...more },
    });
    const numbered = (count: number, more?: Partial<Sum>) => Array.from({ length: count }, (_, n) => unit(n, more));
    const answered = (n: number) => ({ key: `unit ${n}`, answer: { sum: n + 1000 } });
    const byKey = (a: { key: string }, b: { key: string }) => a.key.localeCompare(b.key, 'en', { numeric: true });
    const collect = async (units: Unit<Sum>[], claimS = LATE_S) => {
      const outcomes: Outcome<Added>[] = [];
      const jobs = await open(claimS);
      for await (const outcome of jobs.run(units)) outcomes.push(outcome);
      return outcomes.sort(byKey);
    };
    /** How often each sum was computed to its end. */
    const notedSums = () => (existsSync(join(notes, 'answered')) ? lines(join(notes, 'answered')) : []);
    const lines = (path: string) => readFileSync(path, 'utf8').trim().split('\n');

    it('answers every unit, once, and does none of them twice', async () => {
      const outcomes = await collect(numbered(120));
      expect(outcomes).toEqual(Array.from({ length: 120 }, (_, n) => answered(n)));
      expect(notedSums().sort()).toEqual(Array.from({ length: 120 }, (_, n) => String(n + 1000)).sort());
    });

    it('takes one batch after another, and an empty one', async () => {
      const jobs = await open(LATE_S);
      const keys: string[] = [];
      for (const units of [numbered(2), [], numbered(3)]) {
        for await (const { key } of jobs.run(units)) keys.push(key);
      }
      expect(keys.sort()).toEqual(['unit 0', 'unit 0', 'unit 1', 'unit 1', 'unit 2']);
    });

    it('reports what a unit threw under its key, and answers the others', async () => {
      const outcomes = await collect([unit(0), unit(1, { trouble: 'refuse' }), unit(2)]);
      expect(outcomes).toEqual([answered(0), { key: 'unit 1', failure: 'will not add 1 and 1000' }, answered(2)]);
    });

    it('loses nothing and counts nothing twice when a worker is killed at its work', async () => {
      const units = numbered(30);
      units[4] = unit(4, { trouble: 'die once' });
      const outcomes = await collect(units, SOON_S);
      expect(outcomes).toEqual(Array.from({ length: 30 }, (_, n) => answered(n)));
      expect(existsSync(join(notes, 'died-1004'))).toBe(true);
    });

    it('gives a unit up that kills every worker, and says so under its key', async () => {
      const outcomes = await collect([unit(0), unit(1, { trouble: 'die always' }), unit(2)], SOON_S);
      expect(outcomes).toEqual([
        answered(0),
        { key: 'unit 1', failure: expect.stringContaining('each of 3 workers ended while at it') },
        answered(2),
      ]);
    });

    it('stops when it is told to', async () => {
      const stop = new AbortController();
      const reason = new Error('enough');
      const units = numbered(200, { waitMs: 20 });
      const jobs = await open(LATE_S);
      const work = (async () => {
        for await (const _ of jobs.run(units, stop.signal)) stop.abort(reason);
      })();
      await expect(work).rejects.toBe(reason);
      await pause(150);
      const soon = notedSums().length;
      expect(soon).toBeLessThan(40);
      await pause(150);
      expect(notedSums()).toHaveLength(soon);
    });

    it('refuses a batch with one key twice', async () => {
      await expect(collect([unit(1), unit(1)])).rejects.toThrow('one key');
    });
  });
}
