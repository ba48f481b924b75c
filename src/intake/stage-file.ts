import { basename, join } from 'node:path';
import { quoteText } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { writeCleanCopy } from './clean-copy.ts';
import { countRecords } from './count-records.ts';
import type { Source, TextSource } from './inspect-source.ts';
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

/** Takes the rows from `first` on out of a staging table again; written anew, because row numbers must stay without gaps. */
async function cutStage(store: Store, stage: string, first: number): Promise<void> {
  await store.run(`CREATE TEMP TABLE kept AS SELECT * FROM ${stage} WHERE rowid < ${first} ORDER BY rowid;
    DROP TABLE ${stage}; ALTER TABLE kept RENAME TO ${stage}`);
}

interface Span {
  readonly first: number;
  readonly rows: number;
}

/** The engine reads the file as it is, and meanwhile its rows are counted; undefined when it objects or the counts differ. */
async function insertDirectly(
  store: Store,
  section: Section,
  source: TextSource,
  read: ReadFrom,
): Promise<Span | undefined> {
  let wanted = true;
  const counting = countRecords(source, () => wanted);
  counting.catch(() => undefined);
  let span: Span;
  try {
    span = await insert(store, section, source, read, source.columns);
  } catch (thrown) {
    wanted = false;
    // What the count has found wrong is told better than the engine tells it.
    await counting;
    if (!/CSV|Invalid unicode|state machine|gzip|deflate/i.test(engineMessage(thrown))) throw thrown;
    return undefined;
  }
  if (span.rows === (await counting) * section.rows.length) return span;
  await cutStage(store, stageName(section.table), span.first);
  return undefined;
}

/**
 * Reads one file into the staging table of its section. The file is given to the engine as it is; only when its strict
 * reader objects (a line with too few cells, a stray quote, mixed line ends), counts otherwise than we do or cannot know the
 * encoding, it reads a clean copy, in which every line that is no record has been found and kept.
 * @param scratch folder for the copy, which stays there until the caller removes the folder
 */
export async function stageFile(store: Store, section: Section, source: Source, scratch: string): Promise<StagedFile> {
  const stage = stageName(section.table);
  const finish = async ({ first, rows }: Span, read: ReadFrom, broken: readonly BrokenLine[]): Promise<StagedFile> => {
    const where = `${stage} WHERE rowid >= ${first} AND fault = 'nothing'`;
    return { section, source, read, first, rows, broken, nothing: section.wide ? await countRows(store, where) : 0 };
  };
  const direct = { file: source.file, clean: false };
  if (source.format === 'parquet') {
    const read = { ...direct, gzip: false };
    return finish(await insert(store, section, source, read, await columnsOf(store, source)), read, []);
  }
  if (source.encoding === 'utf-8') {
    const read = { ...direct, gzip: source.compression === 'gzip' };
    const span = await insertDirectly(store, section, source, read);
    if (span !== undefined) return finish(span, read, []);
  }
  const copy = join(scratch, `copy-${section.table}-${await countRows(store, stage)}-${basename(source.file)}`);
  const { broken, rows } = await writeCleanCopy(source, copy);
  const read = { file: copy, gzip: false, clean: true };
  const span = await insert(store, section, source, read, source.columns);
  if (span.rows !== rows * section.rows.length) {
    throw new Error(`${source.shown}: ${rows} records were copied and ${span.rows} rows read from them`);
  }
  return finish(span, read, broken);
}
