import { openBook } from '../book/open-book.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import { readMapping } from '../intake/read-mapping.ts';
import { type IntakeOutcome, runIntake } from '../intake/run-intake.ts';
import { lookAtFile } from '../intake/sketch-files.ts';
import { type SketchFile, sketchMapping } from '../intake/sketch-mapping.ts';
import type { Progress } from '../progress.ts';

export interface IntakeOptions {
  /** Folder of the book; made when it is not there. */
  readonly book: string;
  /** The mapping file. */
  readonly mapping: string;
  /** Rows that differ from the book's take their place, instead of being set aside as conflicts. */
  readonly replace?: boolean;
  /** Does everything and takes it back: the counts of what would happen. */
  readonly dryRun?: boolean;
  /** Longest line that is read, in bytes. */
  readonly lineLimitBytes?: number;
}

export interface IntakeEffects {
  readonly progress: Progress;
  readonly now: () => Date;
}

/** For every file and table read = loaded + set aside, and why rows were set aside, most frequent first. */
export interface IntakeReport extends IntakeOutcome {
  readonly book: string;
  readonly dryRun: boolean;
  readonly read: number;
  readonly loaded: number;
  readonly repeated: number;
  readonly setAside: number;
}

/**
 * Reads files into a book through a mapping file (docs/mapping.md).
 * @throws ExpectedFailure of kind `data` (mapping or files cannot be used) or `book` (busy, newer, damaged, disk full)
 */
export async function intake(options: IntakeOptions, effects: IntakeEffects): Promise<IntakeReport> {
  const { book: dir, mapping: file, replace = false, dryRun = false, lineLimitBytes } = options;
  // Before the book is opened: a slip in the mapping must not leave an empty book behind.
  const mapping = await readMapping(file);
  const book = await openBook(dir, { access: 'create', command: 'leatherbook intake', now: effects.now });
  try {
    const settings = { replace, dryRun, ...(lineLimitBytes === undefined ? {} : { lineLimitBytes }) };
    const outcome = await runIntake(book, mapping, settings, effects.progress);
    const sum = (key: 'read' | 'loaded' | 'repeated' | 'setAside') =>
      outcome.files.reduce((total, count) => total + count[key], 0);
    return {
      ...outcome,
      book: dir,
      dryRun,
      read: sum('read'),
      loaded: sum('loaded'),
      repeated: sum('repeated'),
      setAside: sum('setAside'),
    };
  } finally {
    await book.close();
  }
}

/**
 * A first mapping for some files, as the text of a YAML file for the user to finish (docs/mapping.md).
 * @throws ExpectedFailure of kind `usage` when no file is given, `data` when one cannot be read
 */
export async function sketch(
  options: { readonly files: readonly string[] },
  effects: Pick<IntakeEffects, 'progress'>,
): Promise<string> {
  if (options.files.length === 0) {
    throw new ExpectedFailure(
      'usage',
      'A sketch needs at least one file.',
      'Name the files: leatherbook intake --sketch FILE...',
    );
  }
  effects.progress.stage('Looking at files', options.files.length);
  const files: SketchFile[] = [];
  for (const file of options.files) {
    files.push(await lookAtFile(file));
    effects.progress.advance(files.length);
  }
  effects.progress.finish();
  return sketchMapping(files);
}
