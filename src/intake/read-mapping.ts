import { readFile } from 'node:fs/promises';
import { type Document, isMap, isNode, isScalar, LineCounter, parseDocument } from 'yaml';
import type { IncomingTableName } from '../book/schema.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { compileMapping, MappingError } from './compile-mapping.ts';
import type { FrameSpec } from './frames.ts';
import type { Mapping } from './mapping.ts';
import { mappingSchema, type SectionSpec } from './mapping-schema.ts';

const REMEDY = 'Correct the mapping file; docs/mapping.md describes every key, with examples.';
/** A mapping is written by hand: anything longer is another file given by mistake. */
const SIZE_LIMIT = 2_000_000;

function refuse(file: string, message: string, line?: number): never {
  const place = line === undefined ? file : `${file}, line ${line}`;
  throw new ExpectedFailure('data', `${place}: ${message}`, REMEDY, line === undefined ? { file } : { file, line });
}

/** Line of the deepest part of `path` that is in the document: of its key, where it has one. */
function lineOf(document: Document, lines: LineCounter, path: readonly PropertyKey[]): number | undefined {
  for (let length = path.length; length > 0; length--) {
    const parent = length === 1 ? document.contents : document.getIn(path.slice(0, length - 1), true);
    const name = path[length - 1];
    const key = isMap(parent)
      ? parent.items.find((item) => isScalar(item.key) && item.key.value === name)?.key
      : undefined;
    const node = key ?? document.getIn(path.slice(0, length), true);
    if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return undefined;
}

/** Section lists of one are written without the list; the schema puts the 0 in, which the document does not have. */
function documentPath(path: readonly PropertyKey[], document: Document): PropertyKey[] {
  if (path[0] === 'tables' && path[2] === 0 && document.getIn(['tables', path[1], 'files']) !== undefined) {
    return path.filter((_, index) => index !== 2);
  }
  return [...path];
}

/**
 * Reads the text of a mapping.
 * @param file its name, for messages
 * @throws ExpectedFailure of kind `data` that names line, path, what is allowed and what was probably meant
 */
export function parseMapping(text: string, file: string): Mapping {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true, stringKeys: true });
  const [fault] = document.errors;
  if (fault !== undefined) {
    const line = lines.linePos(fault.pos[0]).line;
    if (fault.code === 'DUPLICATE_KEY') {
      const key = /^[^\n:]*/.exec(text.slice(fault.pos[0]))?.[0].trim() ?? '';
      refuse(
        file,
        `the key '${key}' stands here a second time; a name can be given only once (two frames, tables or columns of one name?)`,
        line,
      );
    }
    refuse(file, `this is not YAML: ${fault.message.split('\n')[0]!.replace(/ at line.*$/, '')}`, line);
  }
  let value: unknown;
  try {
    value = document.toJS({ maxAliasCount: 50 });
  } catch (thrown) {
    refuse(file, (thrown as Error).message);
  }
  if (value === null || value === undefined) refuse(file, 'the mapping is empty');
  const parsed = mappingSchema.safeParse(value);
  if (!parsed.success) {
    // A key that is not known explains the missing of another better than the other way round.
    const { issues } = parsed.error;
    const issue = issues.find(({ code }) => code === 'unrecognized_keys') ?? issues[0]!;
    const path = documentPath(issue.path, document);
    const keys = issue.code === 'unrecognized_keys' ? [...path, issue.keys[0]!] : path;
    refuse(
      file,
      `${path.length === 0 ? 'the mapping' : path.join('.')}: ${issue.message}`,
      lineOf(document, lines, keys),
    );
  }
  try {
    const { frames, tables } = parsed.data;
    return compileMapping(
      file,
      frames as Record<string, FrameSpec>,
      tables as Partial<Record<IncomingTableName, readonly SectionSpec[]>>,
    );
  } catch (thrown) {
    if (!(thrown instanceof MappingError)) throw thrown;
    refuse(file, `${thrown.path.join('.')}: ${thrown.message}`, lineOf(document, lines, thrown.path as PropertyKey[]));
  }
}

/** Reads a mapping file; see `parseMapping`. */
export async function readMapping(file: string): Promise<Mapping> {
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (thrown) {
    const { code } = thrown as NodeJS.ErrnoException;
    const why =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'it is a folder'
          : `it cannot be read (${code})`;
    throw new ExpectedFailure(
      'data',
      `The mapping ${file} cannot be used: ${why}.`,
      'Name a mapping file; `leatherbook intake --sketch FILE...` writes a first one.',
      { file },
    );
  }
  if (text.length > SIZE_LIMIT) refuse(file, 'this is too long for a mapping');
  return parseMapping(text, file);
}
