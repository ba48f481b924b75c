import { mkdirSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { asPermission, busy } from '../../book/book-failures.ts';
import { readHolder, removeHolder, writeHolder } from '../../book/holder.ts';
import { keepPlans } from '../../book/keep-plans.ts';
import type { Book } from '../../book/open-book.ts';
import { type Journal, openJournal } from '../../jobs/journal.ts';
import { type KeptPlan, toPlanTables } from './plan-tables.ts';
import type { PlanAnswered } from './plan-worker.ts';

/** Folder in a book for plans that are made and not yet in its tables. */
const FOLDER = 'plans';
/** Folders that this process holds: the file that names the holder tells processes apart, and not two callers in one. */
const heldHere = new Set<string>();
const JOURNAL_NAME = /^journal-(.+)\.jsonl$/;

/** The plans' journals of a book, held by one process at a time. */
export interface PlanJournals {
  /** That of the present build. */
  readonly current: Journal<PlanAnswered>;
  /** Moves the plans of all journals into the book's tables, those of earlier builds with their build's id; then deletes the journals. */
  keepAll(book: Book): Promise<void>;
  /** Closes the journals and leaves them for the next time. */
  close(): void;
}

/**
 * @throws ExpectedFailure of kind `book`: another process makes plans for this book; the folder cannot be written; a damaged journal
 */
export function openPlanJournals(bookDir: string, buildId: string, now: () => Date): PlanJournals {
  const folder = resolve(bookDir, FOLDER);
  try {
    mkdirSync(folder, { recursive: true });
    const holder = readHolder(folder);
    if (holder !== null && (holder.pid !== process.pid || heldHere.has(folder))) throw busy(bookDir, holder);
    writeHolder(folder, 'plan', now());
    heldHere.add(folder);
  } catch (thrown) {
    throw asPermission(thrown, bookDir);
  }
  const open = (id: string) => openJournal<PlanAnswered>(join(folder, `journal-${id}.jsonl`));
  let isHeld = true;
  const release = () => {
    if (isHeld) removeHolder(folder);
    isHeld = false;
    heldHere.delete(folder);
  };
  let current: Journal<PlanAnswered>;
  try {
    current = open(buildId);
  } catch (thrown) {
    release();
    throw thrown;
  }
  const close = () => {
    current.close();
    release();
  };
  return {
    current,
    async keepAll(book) {
      for (const name of readdirSync(folder)) {
        const id = JOURNAL_NAME.exec(name)?.[1];
        if (id === undefined) continue;
        const journal = id === buildId ? current : open(id);
        await keepPlans(book, toPlanTables(plansOf(journal, id)));
        journal.remove();
      }
      close();
    },
    close,
  };
}

function plansOf({ outcomes }: Journal<PlanAnswered>, buildId: string): KeptPlan[] {
  return [...outcomes.values()].flatMap((outcome) =>
    'answer' in outcome ? [{ id: outcome.key, ...outcome.answer, buildId }] : [],
  );
}
