import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { openBook } from '../src/book/open-book.ts';
import { planMany } from '../src/commands/plan-many.ts';
import { parseSituations, USUAL_SITUATIONS } from '../src/commands/plans/situations.ts';
import type { Progress } from '../src/progress.ts';

const ASKED = { batters: 300, minutes: 10 };

/**
 * Plans for a league against one club, on two threads, in a copy of a built book: `npx tsx bench/fleet.ts BOOK [BATTERS]`. The whole
 * job counts: reading the book, getting the threads ready, and keeping the plans. With fewer batters than asked for, in the
 * call or in the book, the time of all is reckoned from those.
 */
async function main(from: string, count: number): Promise<void> {
  const dir = join(mkdtempSync(join(tmpdir(), 'leatherbook-bench-')), 'book');
  try {
    cpSync(from, dir, { recursive: true });
    const { lineup, defence, plays } = await whoBats(dir, count);
    const situations = parseSituations(USUAL_SITUATIONS)!;
    console.log(`${cpus()[0]?.model} x ${cpus().length}, node ${process.version}, load ${loadavg()[0]!.toFixed(1)}`);
    console.log(`${plays} plays in the book; ${lineup.length} batters (asked for: ${ASKED.batters})`);
    const stages = new Stages();
    const { made, failures } = await planMany(
      {
        ...{ book: dir, batters: { lineup: lineup.join(',') }, situations, defence },
        ...{ rule: 'two-a-side', seed: 1, threads: 2 },
      },
      { progress: stages, now: () => new Date(), notify: console.error },
    );
    stages.restS += stages.next('keeping the plans, and what they would have been worth');
    const plans = ASKED.batters * situations.length;
    const minutes = (stages.plansS * (plans / made) + stages.restS) / 60;
    const all = `${made} plans, ${failures.length} failures`;
    console.log(`${sayTimes(all, stages.plansS + stages.restS, stages.processorS)}; load ${loadavg()[0]!.toFixed(1)}`);
    console.log(`${plans} plans: ${minutes.toFixed(1)} min by the clock (asked for: ${ASKED.minutes})`);
  } finally {
    rmSync(join(dir, '..'), { recursive: true });
  }
}

/** Those of whom the book has most balls, each at his side. */
async function whoBats(dir: string, count: number) {
  const book = await openBook(dir, { access: 'read', command: 'bench', now: () => new Date() });
  const rows = await book.store.rows(
    `SELECT batter_id, batter_side, count(*) AS n FROM plays GROUP BY 1, 2 ORDER BY n DESC, 1 LIMIT ${count}`,
  );
  const [club] = await book.store.rows('SELECT min(fielding_team) AS team, count(*) AS plays FROM plays');
  await book.close();
  const lineup = rows.map(({ batter_id, batter_side }) => `${batter_id}:${batter_side}`);
  return { lineup, defence: String(club!.team), plays: club!.plays };
}

/** Says what each stage of the job took, the plans in tenths, to see whether later ones cost more. */
class Stages implements Progress {
  /** Seconds by the clock of making plans, and of all else. */
  plansS = 0;
  restS = 0;
  /** Seconds of processor of all. */
  processorS = 0;
  private clock = performance.now();
  private processor = process.cpuUsage();
  private total = 0;
  private said = 0;

  stage(_label: string, total: number): void {
    this.total = total;
    this.restS += this.next('reading the book');
  }

  advance(done: number): void {
    const tenth = Math.floor((10 * done) / this.total);
    if (tenth <= this.said) return;
    this.said = tenth;
    this.plansS += this.next(`plans, up to ${done}`);
  }

  finish(): void {
    this.restS += this.next('ending the threads');
  }

  /** Ends a stage; returns its seconds by the clock. */
  next(what: string): number {
    const clockS = (performance.now() - this.clock) / 1000;
    const { user, system } = process.cpuUsage(this.processor);
    const processorS = (user + system) / 1e6;
    console.log(sayTimes(what, clockS, processorS));
    this.processorS += processorS;
    this.clock = performance.now();
    this.processor = process.cpuUsage();
    return clockS;
  }
}

function sayTimes(what: string, clockS: number, processorS: number): string {
  return `${what.padEnd(56)} ${clockS.toFixed(1).padStart(7)} s by the clock, ${processorS.toFixed(1)} s of processor`;
}

const [book, count] = process.argv.slice(2);
if (book === undefined) throw new Error('npx tsx bench/fleet.ts BOOK [BATTERS]: name a built book');
await main(book, Number(count ?? ASKED.batters));
