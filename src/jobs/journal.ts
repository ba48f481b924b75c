import { randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Outcome } from './jobs.ts';

/** Outcomes of a batch as they come, on the disk: what a killed coordinator has of its work when it is started again. */
export interface Journal<Answer> {
  /** Names the batch, in the queue too; a new journal has a new one. Letters and digits. */
  readonly batch: string;
  /** Outcomes by key: those found at the opening and those added since. */
  readonly outcomes: ReadonlyMap<string, Outcome<Answer>>;
  /** Writes an outcome down; one whose key is there already is dropped. Safe from the end of the process at once, from that of the machine within a second. */
  add(outcome: Outcome<Answer>): void;
  close(): void;
  /** Closes it and deletes the file. */
  remove(): void;
}

interface Header {
  readonly batch: string;
}

const SYNC_EVERY_MS = 1000;

/**
 * Opens the journal at `path`, or begins one. The file has a line of JSON for itself and one for each outcome; a last line
 * without its end was being written when the process died, and is cut off.
 * @throws ExpectedFailure of kind `book` when the file holds anything else
 */
export function openJournal<Answer>(path: string, clockMs: () => number = () => performance.now()): Journal<Answer> {
  const outcomes = new Map<string, Outcome<Answer>>();
  const text = existsSync(path) ? readFileSync(path, 'utf8') : '';
  const whole = text.slice(0, text.lastIndexOf('\n') + 1);
  const [first, ...lines] = whole.split('\n').filter((line) => line !== '');
  let batch = randomUUID().replaceAll('-', '');
  if (first !== undefined) {
    batch = parse<Header>(first, path, 1).batch;
    for (const [at, line] of lines.entries()) {
      const outcome = parse<Outcome<Answer>>(line, path, at + 2);
      outcomes.set(outcome.key, outcome);
    }
  }
  const file = openSync(path, 'a');
  ftruncateSync(file, Buffer.byteLength(whole));
  const write = (value: object) => writeSync(file, `${JSON.stringify(value)}\n`);
  if (first === undefined) write({ batch } satisfies Header);
  let syncedMs = Number.NEGATIVE_INFINITY;
  let isOpen = true;
  const close = () => {
    if (!isOpen) return;
    isOpen = false;
    fsyncSync(file);
    closeSync(file);
  };
  return {
    batch,
    outcomes,
    add(outcome) {
      if (outcomes.has(outcome.key)) return;
      write(outcome);
      outcomes.set(outcome.key, outcome);
      if (clockMs() - syncedMs < SYNC_EVERY_MS) return;
      fsyncSync(file);
      syncedMs = clockMs();
    },
    close,
    remove() {
      close();
      rmSync(path, { force: true });
    },
  };
}

function parse<T extends object>(line: string, path: string, number: number): T {
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value === 'object' && value !== null && ('batch' in value || 'key' in value)) return value as T;
  } catch {
    // Said below.
  }
  throw new ExpectedFailure(
    'book',
    `${path} is damaged: line ${number} is not an outcome.`,
    'Delete the file; what it held is computed again.',
    { file: path, line: number },
  );
}
