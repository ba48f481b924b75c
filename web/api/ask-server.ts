import type { FailureAnswer } from '../../src/server/answers.ts';

/** What the server could not answer, and what the reader can do about it. */
export class ServerFailure extends Error {
  override readonly name = 'ServerFailure';
  readonly kind: string;
  readonly remedy: string;

  constructor(kind: string, message: string, remedy: string) {
    super(message);
    this.kind = kind;
    this.remedy = remedy;
  }
}

/**
 * Asks the server for `address` and reads its JSON.
 * @throws ServerFailure: what the server said is wrong, or that it does not answer
 */
export async function askServer<T>(address: string, options: RequestInit = {}): Promise<T> {
  const response = await fetchAnswer(address, options);
  return (await response.json()) as T;
}

/** As askServer, for an answer that is text. */
export async function askServerForText(address: string, options: RequestInit = {}): Promise<string> {
  return await (await fetchAnswer(address, options)).text();
}

/** Asks the server to do something. */
export async function tellServer<T>(address: string, body: unknown = {}): Promise<T> {
  return await askServer<T>(address, posted(body));
}

/** As tellServer, for an answer that is a file. */
export async function tellServerForFile(address: string, body: unknown): Promise<Blob> {
  return await (await fetchAnswer(address, posted(body))).blob();
}

function posted(body: unknown): RequestInit {
  return {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'X-Leatherbook': '1' },
    body: JSON.stringify(body),
  };
}

async function fetchAnswer(address: string, options: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(address, options);
  } catch (thrown) {
    if (options.signal?.aborted) throw thrown;
    throw new ServerFailure('gone', 'The workbench does not answer.', 'Is `leatherbook serve` still running?');
  }
  if (response.ok) return response;
  const { error } = (await response.json().catch(() => ({ error: undefined }))) as Partial<FailureAnswer>;
  if (error === undefined) {
    throw new ServerFailure('bug', `The workbench answered ${response.status}.`, 'Load the page again.');
  }
  throw new ServerFailure(error.kind, error.message, error.remedy);
}
