/** What kind of thing went wrong; the command line turns it into an exit code (commands.md). */
export type FailureKind = 'usage' | 'data' | 'book';

/** Where in a source file the trouble lies, as far as it is known. Lines count from 1. */
export interface FailurePlace {
  readonly file?: string;
  readonly line?: number;
  readonly column?: string;
  readonly value?: string;
}

/**
 * A failure that the user can do something about: a wrong option, unusable data, a missing or busy book.
 * Everything else that is thrown is a bug.
 */
export class ExpectedFailure extends Error {
  override readonly name = 'ExpectedFailure';
  readonly kind: FailureKind;
  /** One sentence that says what to do next. */
  readonly remedy: string;
  readonly place: FailurePlace;

  constructor(kind: FailureKind, message: string, remedy: string, place: FailurePlace = {}, options?: ErrorOptions) {
    super(message, options);
    this.kind = kind;
    this.remedy = remedy;
    this.place = place;
  }
}
