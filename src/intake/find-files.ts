import { readdir, stat } from 'node:fs/promises';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import { ExpectedFailure } from '../expected-failure.ts';
import { didYouMean } from './nearest-word.ts';

export interface FoundFile {
  readonly file: string;
  /** The path as the mapping has it, with the pattern filled in. */
  readonly shown: string;
}

/** `*` is any characters and `?` one, within a name. */
function namePattern(segment: string): RegExp {
  const source = segment
    .replaceAll(/[.+^${}()|[\]\\]/g, '\\$&')
    .replaceAll('*', '.*')
    .replaceAll('?', '.');
  return new RegExp(`^${source}$`, 's');
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).sort();
  } catch {
    return [];
  }
}

/**
 * The files that a path or pattern of a mapping names, sorted by name. Names beginning with a dot must be written out.
 * @throws ExpectedFailure of kind `data` when there is none
 */
export async function findFiles(pattern: string, mappingFile: string): Promise<FoundFile[]> {
  const base = dirname(resolve(mappingFile));
  if (!/[*?]/.test(pattern)) return [{ file: isAbsolute(pattern) ? pattern : join(base, pattern), shown: pattern }];
  const segments = pattern.split('/');
  let found: string[] = [''];
  for (const [depth, segment] of segments.entries()) {
    const next: string[] = [];
    for (const prefix of found) {
      const path = (name: string) => (depth === 0 ? name : `${prefix}/${name}`);
      if (!/[*?]/.test(segment)) {
        next.push(path(segment));
        continue;
      }
      const matches = namePattern(segment);
      const names = await namesIn(depth === 0 ? base : resolve(base, prefix === '' ? '/' : prefix));
      next.push(...names.filter((name) => !name.startsWith('.') && matches.test(name)).map(path));
    }
    found = next;
  }
  const files: FoundFile[] = [];
  for (const shown of found) {
    const file = resolve(base, shown);
    const there = await stat(file).catch(() => undefined);
    if (there !== undefined && !there.isDirectory()) files.push({ file, shown });
  }
  if (files.length > 0) return files;
  const folder = dirname(pattern);
  const there = await namesIn(resolve(base, folder));
  throw new ExpectedFailure(
    'data',
    `No file fits '${pattern}', looked for in the folder of the mapping.${didYouMean(pattern, there)}`,
    'Correct the pattern under `files` in the mapping; it is relative to the folder of the mapping file.',
    { file: pattern },
  );
}
