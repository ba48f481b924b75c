import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { deserialize, serialize } from 'node:v8';

/** What became of a thing that one process makes for all that test. */
type Outcome = { readonly made: unknown } | { readonly failure: string };

const outcomeFile = (folder: string) => join(folder, 'outcome');

/** The first process of a run that asks for `folder` makes it and what is to be known of it; the others wait. A failure is theirs, too. */
export async function makeOnce<T>(folder: string, make: () => Promise<T>): Promise<T> {
  try {
    mkdirSync(folder);
  } catch (thrown) {
    if ((thrown as NodeJS.ErrnoException).code !== 'EEXIST') throw thrown;
    return madeOnce(folder);
  }
  const tell = (outcome: Outcome) => {
    const draft = join(folder, 'outcome.draft');
    writeFileSync(draft, serialize(outcome));
    renameSync(draft, outcomeFile(folder));
  };
  try {
    const made = await make();
    tell({ made });
    return made;
  } catch (thrown) {
    tell({ failure: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) });
    throw thrown;
  }
}

/** Waits for what another process makes in `folder`. */
export async function madeOnce<T>(folder: string): Promise<T> {
  while (!existsSync(outcomeFile(folder))) await pause(50);
  const outcome = deserialize(readFileSync(outcomeFile(folder))) as Outcome;
  if ('failure' in outcome) throw new Error(`What is made once for all tests could not be made: ${outcome.failure}`);
  return outcome.made as T;
}
