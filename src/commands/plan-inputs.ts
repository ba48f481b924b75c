import { createHash } from 'node:crypto';
import { readSettings } from '../book/book-info.ts';
import type { Book } from '../book/open-book.ts';
import { readPlayTable } from '../book/read-play-table.ts';
import { readModelFile } from '../book/replace-results.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { RUN_MODES } from '../ledger/runs/stakes.ts';
import { type PlanGrounds, preparePlans } from '../plans/prepare-plans.ts';
import { readSkills } from '../ratings/skills.ts';
import { unpackBuild } from './build-file.ts';

/** All that plans take from a built book, as plain data: what a worker is handed, who must not open the book. */
export interface PlanInputs {
  readonly table: PlayTable;
  /** Model files of the build, by name. */
  readonly files: Readonly<Record<string, Uint8Array>>;
  /** Settings of the build. */
  readonly settings: Readonly<Record<string, string>>;
}

/** @throws ExpectedFailure of kind `book` when the book has not been built */
export async function readPlanInputs(book: Book): Promise<PlanInputs> {
  const files: Record<string, Uint8Array> = {};
  await unpackBuild(async (name) => {
    files[name] = await readModelFile(book, name);
    return files[name];
  });
  return { table: await readPlayTable(book), files, settings: await readSettings(book.store) };
}

/** Everything that plans need, for one question after another. */
export async function groundsFrom({ table, files, settings }: PlanInputs): Promise<PlanGrounds> {
  const { models, skills } = await unpackBuild(async (name) => files[name]!);
  const { grounders, air, values, hits } = models;
  return preparePlans({
    table,
    grounders,
    air,
    runs: {
      mode: RUN_MODES.find((each) => each === settings.runs) ?? 'flat',
      models: hits === null ? undefined : { values, hits },
    },
    skills: skills === null ? undefined : readSkills(skills),
  });
}

/** Sixteen hexadecimal digits that two books share when the same questions have the same plans in both. */
export function fingerprintOf({ table, files, settings }: PlanInputs, programVersion: string): string {
  const hash = createHash('sha256').update(JSON.stringify([programVersion, Object.entries(settings).sort()]));
  for (const name of Object.keys(files).sort()) hash.update(name).update(files[name]!);
  for (const [name, values] of Object.entries(table)) {
    hash.update(name);
    if (ArrayBuffer.isView(values)) hash.update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
    else hash.update(JSON.stringify(values));
  }
  return hash.digest('hex').slice(0, 16);
}
