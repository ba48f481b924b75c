/**
 * Many questions of one kind, answered by many workers. Nothing in here knows what is asked: a question and its answer are
 * anything that survives JSON.
 */
export interface Unit<Question> {
  /** Names the unit among all of its batch. */
  readonly key: string;
  readonly question: Question;
}

/** What became of a unit: an answer, or the reason why there is none. */
export type Outcome<Answer> =
  | { readonly key: string; readonly answer: Answer }
  | { readonly key: string; readonly failure: string };

/** A way to have units answered: threads of this process, or whoever listens to a queue. */
export interface Jobs<Question, Answer> {
  /**
   * Yields one outcome for each unit, as they come, in any order; each key exactly once, whatever dies in between. A unit that
   * cannot be answered yields its failure and stops no other.
   * @param signal ends the work early: the iteration throws its reason, and units not yet answered are given up
   */
  run(units: readonly Unit<Question>[], signal?: AbortSignal): AsyncIterable<Outcome<Answer>>;
  close(): Promise<void>;
}

/** Times that a unit is handed out in all when the workers that have it keep dying. */
export const ATTEMPTS = 3;

/** The failure of a unit that nobody lived to answer. */
export function workerDied<Answer>(key: string, how = ''): Outcome<Answer> {
  return { key, failure: `each of ${ATTEMPTS} workers ended while at it${how === '' ? '' : ` (${how})`}` };
}

/** @throws Error when two units have one key: a bug of the caller */
export function checkKeys(units: readonly Unit<unknown>[]): void {
  if (new Set(units.map(({ key }) => key)).size < units.length) throw new Error('Two units of a batch have one key.');
}
