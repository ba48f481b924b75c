import { Piscina } from 'piscina';
import { ATTEMPTS, type Outcome, type Unit, workerDied } from './jobs.ts';

export interface ThreadPoolOptions {
  /** Module that exports `answer(question)`; it may read `workerData` of piscina once, when it is loaded. */
  readonly workerFile: URL;
  /** Handed to each thread when it starts; copied. */
  readonly workerData?: unknown;
  readonly threads: number;
}

/** Threads that answer one unit each at a time. */
export interface ThreadPool<Question, Answer> {
  readonly threads: number;
  /** The outcome of one unit; rejects only when `signal` ends the work. */
  answer(unit: Unit<Question>, signal?: AbortSignal): Promise<Outcome<Answer>>;
  close(): Promise<void>;
}

/** What a thread sends back: a failure of the question itself is data, so that it is not taken for the thread's death. */
type Reply<Answer> = { readonly answer: Answer } | { readonly failure: string };

/** Wraps a worker's function so that what it throws comes back as the unit's failure. Every worker file exports one. */
export function replying<Question, Answer>(
  answer: (question: Question) => Answer | Promise<Answer>,
): (question: Question) => Promise<Reply<Answer>> {
  return async (question) => {
    try {
      return { answer: await answer(question) };
    } catch (thrown) {
      return { failure: thrown instanceof Error ? thrown.message : String(thrown) };
    }
  };
}

/** A worker's file beside the module that starts it: TypeScript in the sources, JavaScript when built. */
export function workerFileBeside(moduleUrl: string, name: string): URL {
  return new URL(`./${name}${moduleUrl.endsWith('.ts') ? '.ts' : '.js'}`, moduleUrl);
}

export function startThreadPool<Question, Answer>(options: ThreadPoolOptions): ThreadPool<Question, Answer> {
  const { workerFile, workerData, threads } = options;
  const pool = new Piscina<Question, Reply<Answer>>({
    filename: workerFile.href,
    name: 'answer',
    minThreads: 0,
    maxThreads: threads,
    workerData,
    // Threads have loaded their grounds: one that waits a moment for its next unit must not have to load them again.
    idleTimeout: 60_000,
    ...(workerFile.pathname.endsWith('.ts') ? { execArgv: ['--import', 'tsx'] } : {}),
  });
  // A thread that dies while nobody waits for it is replaced; there is nothing else to do about it.
  pool.on('error', () => {});

  const answer = async (unit: Unit<Question>, signal?: AbortSignal): Promise<Outcome<Answer>> => {
    let how = '';
    for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
      try {
        return { key: unit.key, ...(await pool.run(unit.question, signal === undefined ? {} : { signal })) };
      } catch (thrown) {
        signal?.throwIfAborted();
        how = thrown instanceof Error ? thrown.message : String(thrown);
      }
    }
    return workerDied(unit.key, how);
  };
  return { threads, answer, close: () => pool.destroy() };
}
