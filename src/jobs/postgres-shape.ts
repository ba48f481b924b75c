import type { QueueSettings } from './message-queue.ts';

/**
 * Statements that make and delete a queue of the library, which keeps each in a table of its own: a part of the table `job`,
 * tied to a row of the table `queue`.
 *
 * Both begin with a lock on `job`, as every message put or taken does. The library's own calls lock `queue` first: one that
 * deletes a queue waits then for a message on its way, and the message for the row that is being deleted; two that make
 * queues wait for one another. PostgreSQL ends either of the two ("deadlock detected").
 */

const KEPT_MINUTES = 30 * 24 * 60;

/** Makes a queue; one of that name is left as it is. Messages of other queues go on meanwhile. */
export function createStatement(schema: string, name: string, settings: QueueSettings): string {
  const { claimS, attempts, deadLetters } = settings;
  const columns = {
    policy: 'standard',
    expireInSeconds: claimS,
    retryLimit: attempts - 1,
    retentionMinutes: KEPT_MINUTES,
    ...(deadLetters === undefined ? {} : { deadLetter: checked(deadLetters) }),
  };
  return atOnce(`
    LOCK TABLE ONLY ${schema}.job IN SHARE UPDATE EXCLUSIVE MODE;
    PERFORM ${schema}.create_queue('${checked(name)}', '${JSON.stringify(columns)}');`);
}

/** Deletes a queue with its messages; none of that name is no error. All messages wait meanwhile. */
export function removeStatement(schema: string, name: string): string {
  return atOnce(`
    LOCK TABLE ONLY ${schema}.job IN ACCESS EXCLUSIVE MODE;
    DELETE FROM ${schema}.job WHERE name = '${checked(name)}';
    IF EXISTS (SELECT FROM ${schema}.queue WHERE name = '${name}') THEN
      PERFORM ${schema}.delete_queue('${name}');
    END IF;`);
}

/** One statement, and so one transaction; it takes no parameters, hence the names in its text. */
const atOnce = (statements: string) => `DO $$ BEGIN${statements}\nEND $$`;

function checked(name: string): string {
  if (/^[\w-]+$/.test(name)) return name;
  throw new Error(`A queue's name holds letters, digits, _ and -, not: ${name}`);
}
