import type { WorkAnswer } from '../../src/server/answers.ts';
import type { Task } from '../../src/server/work/work-messages.ts';
import { askServer, ServerFailure, tellServer } from '../api/ask-server.ts';
import { readBook } from './book.svelte.ts';

const LOOK_EVERY_MS = 500;

let answer = $state.raw<WorkAnswer>({ running: null, last: null });
let failure = $state.raw<ServerFailure | null>(null);
let timer: ReturnType<typeof setTimeout> | undefined;

export const workState = () => answer;
export const workFailure = () => failure;

/** Looks how far the work is, and goes on looking while there is any. */
export async function followWork(): Promise<void> {
  await take(() => askServer<WorkAnswer>('/api/work'));
}

/** `defence` is the club in the field, for plans. */
export async function startWork(task: Task, defence?: string): Promise<void> {
  await take(() => tellServer<WorkAnswer>(`/api/work/${task}`, { defence }));
}

export async function stopWork(): Promise<void> {
  await take(() => tellServer<WorkAnswer>('/api/work/stop'));
}

async function take(ask: () => Promise<WorkAnswer>): Promise<void> {
  clearTimeout(timer);
  const wasRunning = answer.running !== null;
  try {
    answer = await ask();
    failure = null;
  } catch (thrown) {
    if (!(thrown instanceof ServerFailure)) throw thrown;
    failure = thrown;
  }
  // That somebody writes to the book, and that nobody does any more, is to be seen at once.
  if (answer.running !== null || wasRunning) await readBook();
  if (answer.running !== null) timer = setTimeout(() => void followWork(), LOOK_EVERY_MS);
}
