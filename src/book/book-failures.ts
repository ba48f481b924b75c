import { ExpectedFailure } from '../expected-failure.ts';
import type { Holder } from './holder.ts';

/** A failure of kind `book` about the folder `dir`. */
export function bookFailure(message: string, remedy: string, dir: string, cause?: unknown): ExpectedFailure {
  return new ExpectedFailure('book', message, remedy, { file: dir }, { cause });
}

export function busy(dir: string, holder: Holder | null, cause?: unknown): ExpectedFailure {
  const who = holder
    ? `${holder.command} (process ${holder.pid} on ${holder.host}, since ${holder.since})`
    : `another process${otherPid(cause)}`;
  return bookFailure(
    `The book ${dir} is busy: ${who} has it open.`,
    'Wait until it has ended, or stop it, and try again.',
    dir,
    cause,
  );
}

/** The engine names the process that holds the lock. */
function otherPid(cause: unknown): string {
  const text = cause instanceof Error && cause.cause instanceof Error ? cause.cause.message : '';
  const pid = /\(PID (\d+)\)/.exec(text)?.[1];
  return pid === undefined ? '' : ` (process ${pid})`;
}

export function notABook(dir: string, why: string): ExpectedFailure {
  return bookFailure(
    `${dir} is not a book: ${why}.`,
    'Name the folder of a book, or a new or empty folder for a new one.',
    dir,
  );
}

/** What the file system refused, in our words; anything else comes back as it was. */
export function asPermission(thrown: unknown, dir: string): unknown {
  const code = (thrown as NodeJS.ErrnoException).code;
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') {
    return bookFailure(
      `The folder ${dir} cannot be written by this user.`,
      'Give yourself write permission on it, or copy the book to a folder of your own.',
      dir,
      thrown,
    );
  }
  if (code === 'ENOSPC' || code === 'EDQUOT') {
    return bookFailure(
      `The disk that holds ${dir} is full.`,
      'Free some space and run the command again.',
      dir,
      thrown,
    );
  }
  return thrown;
}
