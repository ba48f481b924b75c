import { isIP } from 'node:net';
import { hostname } from 'node:os';

/** Whether a request that names `host` (the Host header, with its port) may be answered. */
export type HostPolicy = (host: string | undefined) => boolean;

const LOOPBACK = new Set(['127.0.0.1', 'localhost', '[::1]']);

/** `host` without its port; an IPv6 address keeps its brackets. */
function nameOf(host: string): string {
  return host.replace(/:\d+$/, '').toLowerCase();
}

/**
 * Which Host headers belong to a server bound to `bound`. A page of another site whose name is made to point at this
 * machine (DNS rebinding) sends its own name, and is refused. Bound to more than this machine, every plain address is
 * let in too: a name is what rebinding needs.
 */
export function hostPolicy(bound: string): HostPolicy {
  const own = new Set([...LOOPBACK, bound.toLowerCase(), `[${bound.toLowerCase()}]`]);
  const isOpen = !isLoopback(bound);
  if (isOpen) own.add(hostname().toLowerCase());
  return (host) => {
    if (host === undefined || !/^[\w.:[\]-]+$/.test(host)) return false;
    const name = nameOf(host);
    return own.has(name) || (isOpen && isIP(name.replace(/^\[|\]$/g, '')) !== 0);
  };
}

/** Whether an address to bind to can be reached from this machine only. */
export function isLoopback(bound: string): boolean {
  return /^127\./.test(bound) || bound === '::1' || bound.toLowerCase() === 'localhost';
}
