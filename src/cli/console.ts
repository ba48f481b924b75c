import type { Progress } from '../progress.ts';

/** What the command line needs of the outside world; tests put their own in its place. */
export interface Console {
  /** Writes data, to standard output. */
  out(text: string): void;
  /** Writes anything said about the work, to standard error. */
  err(text: string): void;
  /** Shows long work, on standard error; nothing is shown when `quiet`. */
  progress(quiet: boolean): Progress;
  now(): Date;
  /** Whether somebody at a terminal reads what goes to standard output. */
  readonly isTerminal: boolean;
  /** Settles when the user wants the program to end: Ctrl-C, or a kill that can be heard. */
  stopped(): Promise<void>;
}
