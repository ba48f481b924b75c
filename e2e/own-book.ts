import { join } from 'node:path';
import { afterAll, beforeAll } from 'vitest';
import { type Listening, listen } from '../src/server/listen.ts';
import { type TemporaryFolder, temporaryFolder } from '../test/helpers/temporary-book.ts';
import { demo } from './demo.ts';

/** A book that the tests of one file have to themselves, and where it is served. */
export interface OwnBook {
  readonly dir: string;
  /** Without a slash at its end. */
  readonly address: string;
}

/** Serves a book on a port of its own; the address has no slash at its end. */
export async function serveBook(dir: string): Promise<Listening> {
  const options = { book: dir, webFolder: demo.webFolder, port: 0, host: '127.0.0.1' };
  const listening = await listen(options, { now: () => new Date() });
  return { ...listening, address: listening.address.replace(/\/$/, '') };
}

/** Before the tests of a file `make` puts a book at a path, and it is served; after them it is gone. */
export function useOwnBook(make: (dir: string) => void | Promise<void>): OwnBook {
  const own = { dir: '', address: '' };
  let folder: TemporaryFolder;
  let served: Listening;
  beforeAll(async () => {
    folder = temporaryFolder();
    own.dir = join(folder.path, 'book');
    await make(own.dir);
    served = await serveBook(own.dir);
    own.address = served.address;
  });
  afterAll(async () => {
    await served?.close();
    folder.remove();
  });
  return own;
}
