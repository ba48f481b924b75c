import { ExpectedFailure } from '../expected-failure.ts';

interface Translation {
  readonly pattern: RegExp;
  readonly message: string;
  readonly remedy: string;
}

const LOCK_CONFLICT = /Could not set lock on file|Conflicting lock/i;

/** First match wins. The engine gives no codes, only sentences (read off release 1.5.6). */
const TRANSLATIONS: readonly Translation[] = [
  {
    pattern: LOCK_CONFLICT,
    message: 'is in use by another process',
    remedy: 'Wait until the other command has ended, or stop it, and try again.',
  },
  {
    pattern: /No space left on device|ENOSPC|Disk quota exceeded/i,
    message: 'cannot be written: the disk is full',
    remedy: 'Free some space on the disk that holds the book and run the command again; the book is as it was before.',
  },
  {
    pattern: /Read-only file system|EROFS/i,
    message: 'lies on a disk that can only be read',
    remedy: 'Copy the book to a disk that can be written, and use the copy.',
  },
  {
    pattern: /Permission denied|EACCES|EPERM|Operation not permitted/i,
    message: 'may not be opened or written by this user',
    remedy: 'Give yourself read and write permission on the folder and its files, or use a copy.',
  },
  {
    pattern: /database file with version number|newer version of DuckDB|storage version/i,
    message: 'was written by a newer release of the program',
    remedy: 'Install a current Leatherbook to open it.',
  },
  {
    pattern:
      /not a valid DuckDB database|Corrupt database|Could not read enough bytes|checksum|Failure while replaying WAL|Serialization Error/i,
    message: 'is damaged',
    remedy: 'Restore the book from a copy, or make a new one: run intake and build again from the source files.',
  },
  {
    pattern: /^Out of Memory Error|max_temp_directory_size/i,
    message: 'is too large for the memory that it may use',
    remedy: 'Allow it more memory, or keep fewer seasons in one book.',
  },
];

/**
 * What the engine threw, as an ExpectedFailure of kind `book` when the user can do something about it; anything else
 * comes back as it was, because it is a bug.
 * @param file the book's file, for the message
 */
export function translateStoreError(thrown: unknown, file: string): unknown {
  if (!(thrown instanceof Error) || thrown instanceof ExpectedFailure) return thrown;
  const found = TRANSLATIONS.find(({ pattern }) => pattern.test(thrown.message));
  if (found === undefined) return thrown;
  return new ExpectedFailure('book', `${file} ${found.message}.`, found.remedy, { file }, { cause: thrown });
}

/** Whether a translated failure came from another process having the file open. */
export function isLockConflict(thrown: unknown): boolean {
  return thrown instanceof ExpectedFailure && thrown.cause instanceof Error && LOCK_CONFLICT.test(thrown.cause.message);
}
