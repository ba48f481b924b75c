import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../book/open-book.ts';
import { ExpectedFailure } from '../expected-failure.ts';

/** Says that a book was made by the demo, which may therefore replace it. */
const MARKER = 'demo.json';

/** All that a demo book consists of; anything else in the folder is somebody's own. */
const OWN_NAMES = /^(demo\.json|files|models|plans|tmp|book\.duckdb(\..*)?|holder\.json.*)$/;

/**
 * Makes `dir` a fresh demo book: a new one, or in place of an earlier demo book that nobody has open.
 * @throws ExpectedFailure of kind `book` when the folder is anything else, holds files the demo did not make, or is busy
 */
export async function prepareDemoFolder(dir: string, effects: { readonly now: () => Date }): Promise<void> {
  const opening = { command: 'leatherbook demo', now: effects.now } as const;
  if (existsSync(dir) && statSync(dir).isDirectory() && readdirSync(dir).length > 0) {
    const names = readdirSync(dir);
    if (!names.includes(MARKER)) throw refusal(dir, `The folder ${dir} is there and is not a demo book.`);
    const foreign = names.find((name) => !OWN_NAMES.test(name));
    if (foreign !== undefined)
      throw refusal(dir, `The demo book ${dir} holds ${foreign}, which the demo did not make.`);
    if (names.includes('book.duckdb')) {
      // Fails when somebody has it open; its contents do not matter.
      await (await openBook(dir, { ...opening, access: 'write' })).close();
    }
    // The marker goes last, so that a kill on the way leaves a folder that the next demo may clear.
    for (const name of names.filter((each) => each !== MARKER))
      rmSync(join(dir, name), { recursive: true, force: true });
    rmSync(join(dir, MARKER));
  }
  await (await openBook(dir, { ...opening, access: 'create' })).close();
  writeFileSync(join(dir, MARKER), `${JSON.stringify({ madeBy: 'leatherbook demo' })}\n`);
}

function refusal(dir: string, message: string): ExpectedFailure {
  const remedy =
    'Give another folder with --book, or move that one away: the demo deletes nothing that it did not make.';
  return new ExpectedFailure('book', message, remedy, { file: dir });
}
