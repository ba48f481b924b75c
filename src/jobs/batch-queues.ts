import { createHash } from 'node:crypto';

/**
 * Names of the queues of a batch. Coordinator and workers agree on them by way of the *grounds*, a fingerprint of all that
 * answers depend on besides the question: a worker listens to batches with grounds like its own, and to no others.
 */

const PREFIX = 'leatherbook-units-';
const ANSWERS = '-answers';

/** Queue of a batch's units. Grounds and batch may hold letters, digits and underscores. */
export const unitsQueue = (grounds: string, batch: string) => `${PREFIX}${grounds}-${batch}`;

/** Queue of a batch's outcomes. */
export const answersQueue = (units: string) => `${units}${ANSWERS}`;

/** Of all queues those of units; with grounds given, those of their batches only. */
export function unitsQueues(names: readonly string[], grounds?: string): string[] {
  const prefix = grounds === undefined ? PREFIX : `${PREFIX}${grounds}-`;
  return names.filter((name) => name.startsWith(prefix) && !name.endsWith(ANSWERS)).sort();
}

/** The id of a message about a unit: the same whoever sends it, so that the queue drops what is sent twice. */
export function messageId(queue: string, key: string): string {
  const hex = createHash('sha256').update(`${queue}\n${key}`).digest('hex');
  // The bits that say "made from a hash" (RFC 9562, version 8).
  const variant = '89ab'[Number.parseInt(hex[16]!, 16) % 4];
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}
