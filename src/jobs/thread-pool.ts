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
  /** The outcome of one unit; rejects only when `signal` ends the work, or when no thread can load the worker's file. */
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

/** A process started by tsx hands its loader on by itself; any other has to be told, as under test. */
function typeScriptOptions(workerFile: URL): { execArgv?: string[] } {
  if (!workerFile.pathname.endsWith('.ts') || process.execArgv.some((word) => word.includes('tsx'))) return {};
  return { execArgv: ['--import', 'tsx'] };
}

const A_DAY_MS = 86_400_000;

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
    ...typeScriptOptions(workerFile),
  });
  // A thread that dies between two units is replaced. One that cannot even load would be replaced for ever.
  let deaths = 0;
  const broken = new Promise<never>((_, reject) => {
    pool.on('error', (error) => {
      deaths += 1;
      if (deaths >= ATTEMPTS) reject(error);
    });
  });
  broken.catch(() => {});

  // Threads that are still loading do not keep the process alive, and nothing else may.
  let pending = 0;
  let awake: NodeJS.Timeout | undefined;
  const stayAwake = (change: 1 | -1) => {
    pending += change;
    if (pending === 0) clearInterval(awake);
    else if (pending === 1 && change === 1) awake = setInterval(() => {}, A_DAY_MS);
  };

  const ask = async (unit: Unit<Question>, signal?: AbortSignal): Promise<Outcome<Answer>> => {
    let how = '';
    for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
      try {
        const reply = pool.run(unit.question, signal === undefined ? {} : { signal });
        const outcome = { key: unit.key, ...(await Promise.race([reply, broken])) };
        deaths = 0;
        return outcome;
      } catch (thrown) {
        signal?.throwIfAborted();
        if (deaths >= ATTEMPTS) throw thrown;
        how = thrown instanceof Error ? thrown.message : String(thrown);
      }
    }
    return workerDied(unit.key, how);
  };
  const answer = (unit: Unit<Question>, signal?: AbortSignal) => {
    stayAwake(1);
    return ask(unit, signal).finally(() => stayAwake(-1));
  };
  return { threads, answer, close: () => pool.destroy() };
}
