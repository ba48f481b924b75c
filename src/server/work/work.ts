import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ExpectedFailure } from '../../expected-failure.ts';
import type { LastWork, RunningWork, WorkAnswer } from '../answers.ts';
import type { BookSource } from '../book-source.ts';
import type { Task, WorkMessage, WorkOrder } from './work-messages.ts';

/** Built, the file lies beside this one as JavaScript; from the sources it needs a loader. */
const IS_SOURCE = import.meta.url.endsWith('.ts');
const PROGRAM = fileURLToPath(new URL(IS_SOURCE ? './run-work.ts' : './run-work.js', import.meta.url));
/** The book is kept closed here until the process has it open, and no longer than this. */
const OPENING_MS = 20_000;

interface Running {
  readonly task: Task;
  readonly child: ChildProcess;
  readonly startedAt: number;
  stage: string;
  done: number;
  total: number;
  stageAt: number;
  isStopped: boolean;
}

/** One piece of long work at a time, in a process of its own. */
export class Work {
  readonly #source: BookSource;
  readonly #now: () => Date;
  #running: Running | null = null;
  #last: LastWork | null = null;
  readonly #results = new Map<Task, { readonly version: string; readonly result: unknown }>();

  constructor(source: BookSource, now: () => Date) {
    this.#source = source;
    this.#now = now;
  }

  /** @throws ExpectedFailure of kind `usage` while other work goes on */
  start(task: Task, defence?: string): void {
    if (this.#running !== null) {
      throw new ExpectedFailure(
        'usage',
        `The work ${this.#running.task} is going on.`,
        'Wait for its end, or stop it.',
      );
    }
    const order: WorkOrder = { task, book: this.#source.dir, ...(defence === undefined ? {} : { defence }) };
    const child = fork(PROGRAM, [JSON.stringify(order)], {
      execArgv: IS_SOURCE ? ['--import', 'tsx'] : [],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    const at = this.#now().getTime();
    const running: Running = {
      task,
      child,
      startedAt: at,
      stage: 'starting',
      done: 0,
      total: 0,
      stageAt: at,
      isStopped: false,
    };
    this.#running = running;
    this.#follow(running);
  }

  /** Ends the work that goes on, if any; the book stays as it was. */
  stop(): void {
    if (this.#running === null) return;
    this.#running.isStopped = true;
    this.#running.child.kill('SIGKILL');
  }

  get answer(): WorkAnswer {
    return { running: this.#describe(), last: this.#last };
  }

  /** What the last finished work of this kind found, and the version of the book that it was about. */
  resultOf(task: Task): { readonly version: string; readonly result: unknown } | null {
    return this.#results.get(task) ?? null;
  }

  #follow(running: Running): void {
    const { child, task } = running;
    let outcome: LastWork['outcome'] = 'failed';
    let message = 'The work ended without a word.';
    let remedy = 'Run it on the command line to see what it says.';
    let result: unknown;
    let errors = '';
    child.stderr?.on('data', (bytes) => {
      errors = (errors + String(bytes)).slice(-2000);
    });
    const hasOpened = new Promise<void>((resolve) => {
      child.once('message', () => resolve());
      child.once('close', () => resolve());
      setTimeout(resolve, OPENING_MS).unref();
    });
    void this.#source.keepClosed(() => hasOpened);
    child.on('message', (told: WorkMessage) => {
      if (told.type === 'stage') {
        Object.assign(running, { stage: told.label, total: told.total, done: 0, stageAt: this.#now().getTime() });
      } else if (told.type === 'advance') running.done = told.done;
      else if (told.type === 'done') {
        outcome = 'done';
        result = told.result;
      } else {
        ({ message, remedy } = told);
      }
    });
    child.on('error', (error) => {
      message = error.message;
    });
    child.on('close', () => {
      this.#running = null;
      if (running.isStopped && outcome !== 'done') outcome = 'stopped';
      if (outcome === 'failed' && errors !== '') message = `${message} ${errors.trim().split('\n').at(-1)}`;
      const seconds = (this.#now().getTime() - running.startedAt) / 1000;
      this.#last = { task, outcome, seconds, ...(outcome === 'failed' ? { message, remedy } : {}) };
      if (outcome === 'done') void this.#keep(task, result);
    });
  }

  async #keep(task: Task, result: unknown): Promise<void> {
    const { version } = await this.#source.current();
    this.#results.set(task, { version, result });
  }

  #describe(): RunningWork | null {
    if (this.#running === null) return null;
    const { task, stage, done, total, startedAt, stageAt } = this.#running;
    const now = this.#now().getTime();
    const isKnown = total > 0 && done > 0;
    return {
      task,
      stage,
      done,
      total,
      seconds: (now - startedAt) / 1000,
      seconds_left_of_stage: isKnown ? (((now - stageAt) / 1000) * (total - done)) / done : null,
    };
  }
}
