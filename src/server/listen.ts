import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import { ExpectedFailure } from '../expected-failure.ts';
import { createBookSource } from './book-source.ts';
import { createApp } from './create-app.ts';
import { hostPolicy } from './host-policy.ts';
import { builtWebFolder, readWebFiles } from './web-files.ts';
import { Work } from './work/work.ts';

export interface ListenOptions {
  /** Folder of the book. */
  readonly book: string;
  /** 0 takes any free one; without one, the usual or else any free one. */
  readonly port?: number | undefined;
  readonly host: string;
  /** Folder of the built pages; where the build puts them unless given. */
  readonly webFolder?: string;
}

export interface Listening {
  /** Where to point a browser. */
  readonly address: string;
  close(): Promise<void>;
}

/** Asked for when the user names no port; nothing known uses it. */
export const USUAL_PORT = 7420;

/**
 * Serves the workbench until `close`.
 * @throws ExpectedFailure: `book` what openBook says, at once and not on the first page; `usage` a port or address that
 * cannot be had
 */
export async function listen(options: ListenOptions, effects: { readonly now: () => Date }): Promise<Listening> {
  const source = createBookSource(options.book, effects);
  await source.current();
  const work = new Work(source, effects.now);
  const app = createApp({
    workbench: { source, work, now: effects.now },
    webFiles: readWebFiles(options.webFolder ?? builtWebFolder()),
    isOurHost: hostPolicy(options.host),
  });
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  try {
    await bind(server, options);
  } catch (thrown) {
    await source.close();
    throw thrown;
  }
  const { port, address, family } = server.address() as AddressInfo;
  const anyAddress = address === '0.0.0.0' || address === '::';
  const name = anyAddress ? '127.0.0.1' : family === 'IPv6' ? `[${address}]` : address;
  return {
    address: `http://${name}:${port}/`,
    async close() {
      work.stop();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      await source.close();
    },
  };
}

async function bind(server: Server, { port, host }: ListenOptions): Promise<void> {
  try {
    await bindTo(server, port ?? USUAL_PORT, host);
  } catch (thrown) {
    const { code } = thrown as NodeJS.ErrnoException;
    if (code === 'EADDRINUSE' && port === undefined) return await bindTo(server, 0, host);
    throw refusal(code, port, host, thrown);
  }
}

function bindTo(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

function refusal(code: string | undefined, port: number | undefined, host: string, thrown: unknown): unknown {
  const place = `${host}${port === undefined ? '' : `:${port}`}`;
  const usage = (message: string, remedy: string) =>
    new ExpectedFailure('usage', message, remedy, {}, { cause: thrown });
  if (code === 'EADDRINUSE') return usage(`${place} is in use by another program.`, 'Give another --port, or none.');
  if (code === 'EACCES') return usage(`${place} may not be used by this user.`, 'Give a --port of 1024 or more.');
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND')
    return usage(`This machine has no address ${host}.`, 'Leave --host out, or give one of its own addresses.');
  return thrown;
}
