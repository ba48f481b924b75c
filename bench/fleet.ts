import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { openBook } from '../src/book/open-book.ts';
import { planMany } from '../src/commands/plan-many.ts';
import { parseSituations, USUAL_SITUATIONS } from '../src/commands/plans/situations.ts';
import { SILENT } from '../src/progress.ts';

const ASKED = { batters: 300, situations: 8, minutes: 10 };

/**
 * Plans for a league against one club, on two threads, in a copy of a built book: `npx tsx bench/fleet.ts BOOK [BATTERS]`. With
 * fewer batters than asked for, the time of all is reckoned from those.
 */
async function main(from: string, count: number): Promise<void> {
  const dir = join(mkdtempSync(join(tmpdir(), 'leatherbook-bench-')), 'book');
  const effects = { progress: SILENT, now: () => new Date(), notify: console.error };
  try {
    cpSync(from, dir, { recursive: true });
    const book = await openBook(dir, { access: 'read', command: 'bench', now: effects.now });
    const rows = await book.store.rows(
      `SELECT batter_id, batter_side, count(*) AS n FROM plays GROUP BY 1, 2 ORDER BY n DESC, 1 LIMIT ${count}`,
    );
    const [club] = await book.store.rows('SELECT min(fielding_team) AS team, count(*) AS plays FROM plays');
    await book.close();
    const situations = parseSituations(USUAL_SITUATIONS)!;
    const lineup = rows.map(({ batter_id, batter_side }) => `${batter_id}:${batter_side}`).join(',');
    const run = async (batters: string) => {
      const [clock, processor] = [performance.now(), process.cpuUsage()];
      const { made } = await planMany(
        {
          book: dir,
          batters: { lineup: batters },
          situations,
          defence: String(club!.team),
          rule: 'two-a-side',
          seed: 1,
          threads: 2,
          again: true,
        },
        effects,
      );
      const { user, system } = process.cpuUsage(processor);
      return { made, clockS: (performance.now() - clock) / 1000, processorS: (user + system) / 1e6 };
    };
    console.log(`${cpus()[0]?.model} x ${cpus().length}, node ${process.version}; ${club!.plays} plays in the book`);
    // Reading the book and getting two threads ready is paid once, however many plans there are.
    const one = await run(lineup.split(',')[0]!);
    const all = await run(lineup);
    const say = (what: string, { made, clockS, processorS }: typeof one) =>
      console.log(
        `${what.padEnd(24)} ${String(made).padStart(5)} plans ${clockS.toFixed(1).padStart(7)} s by the clock, ${processorS.toFixed(1)} s of processor`,
      );
    say('one batter', one);
    say('all', all);
    const each = (all.processorS - one.processorS) / (all.made - one.made);
    const plans = ASKED.batters * ASKED.situations;
    const minutes = (one.processorS + each * (plans - one.made)) / 2 / 60;
    console.log(
      `a plan more: ${each.toFixed(2)} s of processor; ${plans} plans on 2 cores: ${minutes.toFixed(1)} min (asked for: ${ASKED.minutes})`,
    );
  } finally {
    rmSync(join(dir, '..'), { recursive: true });
  }
}

const [book, count] = process.argv.slice(2);
if (book === undefined) throw new Error('npx tsx bench/fleet.ts BOOK [BATTERS]: name a built book');
await main(book, Number(count ?? ASKED.batters));
