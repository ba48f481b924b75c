import { readFileSync } from 'node:fs';

/** The release of the program that is running; the package file lies two folders up in the sources and when built. */
export function programVersion(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
