import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { quoteText } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { writeCleanCopy } from './clean-copy.ts';
import type { Source } from './inspect-source.ts';
import { endsInLongLine } from './long-last-line.ts';
import type { Section } from './mapping.ts';
import { escapeGlob, type ReadFrom, sourceReader } from './source-sql.ts';
import { type BrokenLine, countRows, type StagedFile, stageName } from './stage.ts';
import { stagingSql } from './staging-sql.ts';

/** What the engine said, whether or not the store has put it in other words. */
function engineMessage(thrown: unknown): string {
  if (!(thrown instanceof Error)) return '';
  return thrown.cause instanceof Error ? thrown.cause.message : thrown.message;
}

/** Names of the columns of a source; those of Parquet are asked of the engine. */
export async function columnsOf(store: Store, source: Source): Promise<readonly string[]> {
  if (source.format !== 'parquet') return source.columns;
  try {
    const described = await store.rows(`DESCRIBE SELECT * FROM read_parquet(${quoteText(escapeGlob(source.file))})`);
    return described.map((row) => String(row.column_name));
  } catch (thrown) {
    throw new ExpectedFailure(
      'data',
      `${source.shown} cannot be read as Parquet: ${engineMessage(thrown).split('\n')[0]}`,
      'Fetch the file again from its supplier, or say what it is with `format`.',
      { file: source.shown },
      { cause: thrown },
    );
  }
}

async function insert(store: Store, section: Section, source: Source, read: ReadFrom, columns: readonly string[]) {
  const stage = stageName(section.table);
  const first = await countRows(store, stage);
  const sql = stagingSql(section, sourceReader(source, read, columns), source.decimal, source.empty);
  await store.run(`INSERT INTO ${stage} ${sql}`);
  return { first, rows: (await countRows(store, stage)) - first };
}

/**
 * Reads one file into the staging table of its section. The file is given to the engine as it is; only when its strict
 * reader objects (a line with too few cells, a stray quote, mixed line ends) or cannot know the encoding, it reads a clean
 * copy, in which every line that is no record has been found and kept.
 * @param scratch folder for the copy, which stays there until the caller removes the folder
 */
export async function stageFile(store: Store, section: Section, source: Source, scratch: string): Promise<StagedFile> {
  const columns = await columnsOf(store, source);
  const direct: ReadFrom = {
    file: source.file,
    gzip: source.format !== 'parquet' && source.compression === 'gzip',
    clean: false,
  };
  let broken: readonly BrokenLine[] = [];
  let read = direct;
  let span: { first: number; rows: number } | undefined;
  if (source.format === 'parquet' || (source.encoding === 'utf-8' && !(await endsInLongLine(source)))) {
    try {
      span = await insert(store, section, source, direct, columns);
    } catch (thrown) {
      const message = engineMessage(thrown);
      const aboutText = /CSV|Invalid unicode|state machine|gzip|GZIP|deflate/i.test(message);
      if (source.format === 'parquet' || !aboutText) throw thrown;
    }
  }
  if (span === undefined && source.format !== 'parquet') {
    const copy = join(
      scratch,
      `copy-${section.table}-${await countRows(store, stageName(section.table))}-${Date.now()}`,
    );
    broken = await writeCleanCopy(source, copy);
    read = { file: copy, gzip: false, clean: true };
    try {
      span = await insert(store, section, source, read, columns);
    } catch (thrown) {
      await rm(copy, { force: true });
      throw thrown;
    }
  }
  const { first, rows } = span!;
  const nothing = section.wide
    ? await countRows(store, `${stageName(section.table)} WHERE rowid >= ${first} AND fault = 'nothing'`)
    : 0;
  return { section, source, read, first, rows, nothing, broken };
}
