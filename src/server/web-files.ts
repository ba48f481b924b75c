import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** One file of the built pages, ready to be sent. */
export interface WebFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};

/** Where the build puts the pages, seen from the sources and from dist/server. */
export function builtWebFolder(): string {
  const beside = fileURLToPath(new URL('../web/', import.meta.url));
  return existsSync(join(beside, 'index.html')) ? beside : fileURLToPath(new URL('../../dist/web/', import.meta.url));
}

/**
 * Reads the built pages into memory, by the path that a browser asks for. Only what is in this list is ever sent, so no
 * request can lead out of the folder; links and files of other kinds are left out.
 */
export function readWebFiles(folder: string): ReadonlyMap<string, WebFile> {
  const files = new Map<string, WebFile>();
  if (!existsSync(folder)) return files;
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = TYPES[extname(entry.name)];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    const address = `/${path.slice(join(folder, '/').length).replaceAll('\\', '/')}`;
    files.set(address, { bytes: Uint8Array.from(readFileSync(path)), type });
  }
  return files;
}
