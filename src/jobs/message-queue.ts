/** A message as it is taken from a queue. */
export interface Message<Data> {
  readonly id: string;
  readonly data: Data;
}

export interface QueueSettings {
  /** Seconds after which a message that was taken and not finished is handed out again; a whole number. */
  readonly claimS: number;
  /** Times that a message is handed out in all. */
  readonly attempts: number;
  /** Queue that a message goes to when it has been handed out so often; none: it is kept as failed. */
  readonly deadLetters?: string;
}

/**
 * The whole of what the project asks of a queue that several machines share. A message that was taken stays claimed until it
 * is finished or its claim runs out.
 * Every call throws an ExpectedFailure of kind `usage` when the queue cannot be reached.
 */
export interface MessageQueue {
  /** Makes a queue; nothing happens when there is one of that name. */
  create(name: string, settings: QueueSettings): Promise<void>;
  names(): Promise<string[]>;
  /** Adds messages; one whose id the queue has had before is dropped, finished or not. Ids are UUIDs. */
  put(name: string, messages: readonly Message<object>[]): Promise<void>;
  /** Claims up to `limit` messages, oldest first. */
  take<Data extends object>(name: string, limit: number): Promise<Message<Data>[]>;
  finish(name: string, ids: readonly string[]): Promise<void>;
  /** Takes back the claims that have run out, of all queues. */
  expire(): Promise<void>;
  /** Deletes a queue with all that is in it. */
  remove(name: string): Promise<void>;
  close(): Promise<void>;
}
