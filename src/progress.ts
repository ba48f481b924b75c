/** A bar on the terminal, a line on a page, or nothing: whoever does long work only knows this. */
export interface Progress {
  /** Starts (or restarts) a stage of `total` steps; 0 when the number is not known. */
  stage(label: string, total: number): void;
  /** Steps done so far within the stage. */
  advance(done: number): void;
  /** Ends the current stage. */
  finish(): void;
}

export const SILENT: Progress = { stage() {}, advance() {}, finish() {} };
