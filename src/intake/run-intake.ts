import { mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Book } from '../book/open-book.ts';
import type { IncomingTableName } from '../book/schema.ts';
import { quoteText } from '../book/sql-text.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Progress } from '../progress.ts';
import type { Reason } from './faults.ts';
import { findFiles } from './find-files.ts';
import { inspectSource, LINE_LIMIT_BYTES, type Source } from './inspect-source.ts';
import { LOAD_ORDER, loadTable } from './load-table.ts';
import type { Mapping, Section } from './mapping.ts';
import { probeMapping } from './probe-mapping.ts';
import { createAside, dropAside, type FileCount, gatherAside, keepAside } from './set-aside.ts';
import { createStage, dropStage, type StagedFile } from './stage.ts';
import { stageFile } from './stage-file.ts';

export interface IntakeSettings {
  /** Rows that differ from the book's take their place, instead of being set aside as conflicts. */
  readonly replace: boolean;
  /** Does everything, and takes it back. */
  readonly dryRun: boolean;
  /** Longest line that is read; default LINE_LIMIT_BYTES. */
  readonly lineLimitBytes?: number;
}

/** How often one reason occurred, with the row's values left out. */
export interface ReasonCount {
  readonly table: string;
  readonly column: string;
  /** The first reason of its kind. */
  readonly example: string;
  readonly rows: number;
}

export interface IntakeOutcome {
  readonly files: readonly FileCount[];
  readonly reasons: readonly ReasonCount[];
}

const SCRATCH = 'intake-';

interface Job {
  readonly section: Section;
  readonly source: Source;
}

/** Looks at every file before any is read, so that a wrong name costs no waiting. */
async function listJobs(mapping: Mapping, lineLimitBytes: number): Promise<Job[]> {
  const jobs: Job[] = [];
  const taken = new Map<string, Section>();
  for (const section of mapping.sections) {
    for (const pattern of section.files) {
      for (const { file, shown } of await findFiles(pattern.path, mapping.file)) {
        const key = `${section.table} ${file}`;
        const other = taken.get(key);
        if (other === section) continue;
        if (other !== undefined) {
          throw new ExpectedFailure(
            'data',
            `${shown} is named twice for the table ${section.table}, in ${other.path} and ${section.path}.`,
            'Name it in one of them.',
            { file: shown },
          );
        }
        taken.set(key, section);
        jobs.push({ section, source: await inspectSource(file, shown, pattern, lineLimitBytes) });
      }
    }
  }
  return jobs;
}

/** A folder of our own beside the book, on the same disk. What a killed intake left there is cleared away. */
async function makeScratch(book: Book): Promise<string> {
  const parent = join(book.dir, 'tmp');
  await mkdir(parent, { recursive: true });
  for (const name of await readdir(parent)) {
    if (name.startsWith(SCRATCH)) await rm(join(parent, name), { recursive: true, force: true });
  }
  return mkdtemp(join(parent, SCRATCH));
}

function asDiskFailure(thrown: unknown, book: Book): unknown {
  const { code } = thrown as NodeJS.ErrnoException;
  if (code !== 'ENOSPC' && code !== 'EDQUOT') return thrown;
  return new ExpectedFailure(
    'book',
    `The disk that holds ${book.dir} is full.`,
    'Free some space and run the command again; the book is as it was before.',
    { file: book.dir },
    { cause: thrown },
  );
}

/** Tells where a row of a staging table came from, by data row: lines are looked up only for rows set aside. */
function placeFinder(files: readonly StagedFile[]): (rowNo: number) => string {
  return (rowNo) => {
    const file = files.find(({ first, rows }) => rowNo >= first && rowNo < first + rows)!;
    return `row ${Math.floor((rowNo - file.first) / file.section.rows.length) + 1} of ${file.source.shown}`;
  };
}

class TakenBack extends Error {}

/**
 * Reads the files of a mapping into a book: all of it or, after a failure or a kill, nothing.
 * @throws ExpectedFailure of kind `data` for files and columns that cannot be used, of kind `book` for the store
 */
export async function runIntake(
  book: Book,
  mapping: Mapping,
  settings: IntakeSettings,
  progress: Progress,
): Promise<IntakeOutcome> {
  const { store } = book;
  await probeMapping(store, mapping);
  const jobs = await listJobs(mapping, settings.lineLimitBytes ?? LINE_LIMIT_BYTES);
  const tables = new Set<IncomingTableName>(jobs.map(({ section }) => section.table));
  const files: FileCount[] = [];
  const reasons = new Map<string, { table: string; column: string; example: string; rows: number }>();
  const scratch = await makeScratch(book);
  try {
    for (const table of tables) await createStage(store, table);
    await createAside(store);
    const staged: StagedFile[] = [];
    progress.stage('Reading files', jobs.length);
    for (const [done, { section, source }] of jobs.entries()) {
      staged.push(await stageFile(store, section, source, scratch));
      progress.advance(done + 1);
    }
    progress.finish();
    progress.stage('Checking and loading', staged.length);
    await store.transaction(async () => {
      for (const table of LOAD_ORDER) {
        if (!tables.has(table)) continue;
        await loadTable(store, table, tables, settings.replace);
        const ofTable = staged.filter(({ section }) => section.table === table);
        const tell = ({ column, reason }: Reason) => {
          const kind = reason.replaceAll(/'[^']*'|[\d.]+/g, '').slice(0, 80);
          const known = reasons.get(`${table} ${column} ${kind}`);
          if (known) known.rows++;
          else reasons.set(`${table} ${column} ${kind}`, { table, column, example: reason, rows: 1 });
        };
        for (const file of ofTable) {
          files.push(await gatherAside(store, file, placeFinder(ofTable), tell));
          progress.advance(files.length);
        }
      }
      await keepAside(store);
      const log = files.map(
        ({ file, table, read, loaded, setAside }) =>
          `(${quoteText(file)}, '${table}', ${read}, ${loaded}, ${setAside})`,
      );
      await store.run(`INSERT INTO intake_log (file, "table", read, loaded, set_aside) VALUES ${log.join(', ')}`);
      if (settings.dryRun) throw new TakenBack();
    });
  } catch (thrown) {
    if (!(thrown instanceof TakenBack)) throw asDiskFailure(thrown, book);
  } finally {
    progress.finish();
    await rm(scratch, { recursive: true, force: true });
    // After a failure of the disk the connection may refuse; temporary tables end with it anyhow.
    for (const table of tables) await dropStage(store, table).catch(() => undefined);
    await dropAside(store).catch(() => undefined);
    await store.run('DROP TABLE IF EXISTS sides; DROP TABLE IF EXISTS suspect_plays').catch(() => undefined);
  }
  return { files, reasons: [...reasons.values()].sort((a, b) => b.rows - a.rows) };
}
