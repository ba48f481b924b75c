import { z } from 'zod';
import { INCOMING_TABLES, type IncomingTableName } from '../book/schema.ts';
import { DIRECTION_NAMES } from './frames.ts';
import { didYouMean, listWords } from './nearest-word.ts';
import { LENGTH_UNITS, UNIT_NAMES, type UnitName } from './units.ts';

/** A strict object whose message for an unknown key says what is allowed and what was probably meant. */
function strict<T extends z.ZodRawShape>(shape: T) {
  const allowed = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) => {
      if (issue.code === 'unrecognized_keys') {
        const [key] = issue.keys as string[];
        return `unknown key '${key}'.${didYouMean(key!, allowed)} Allowed here: ${allowed.join(', ')}`;
      }
      return issue.code === 'invalid_type' ? `expected a block with ${allowed.join(', ')}` : undefined;
    },
  });
}

/** One of a few words, with the nearest one in the message. */
function word<T extends string>(words: readonly T[], what: string) {
  return z.enum(words as [T, ...T[]], {
    error: (issue) =>
      `'${String(issue.input)}' is not ${what}.${didYouMean(String(issue.input), words)} Allowed: ${words.join(', ')}`,
  });
}

/** YAML reads `yes`, `12` or `1.5` as other than text; a column may well be called that. */
const scalarText = z
  .union([z.string(), z.number(), z.boolean()], { error: 'expected a text' })
  .transform((value) => String(value));
const sourceName = scalarText.refine((name) => name !== '', { error: 'a column name cannot be empty' });
const unit = word(UNIT_NAMES as UnitName[], 'a unit');
const single = z.string().refine((text) => /^[\t -~]$/.test(text), {
  error: (issue) => `'${String(issue.input)}' must be one plain character`,
});

const columnShape = {
  from: sourceName.optional(),
  expr: scalarText.optional(),
  value: scalarText.optional(),
  join: z.array(sourceName).min(1).optional(),
  with: z.string().optional(),
  unit: unit.optional(),
  format: z.string().min(1).optional(),
  values: z.record(z.string(), scalarText.nullable()).optional(),
  pattern: z.string().min(1).optional(),
};

const columnSpec = z.preprocess(
  (value) => (typeof value === 'object' && value !== null ? value : { from: value }),
  strict(columnShape),
);
export type ColumnSpec = z.infer<typeof columnSpec>;

const coordinate = z.preprocess(
  (value) => (typeof value === 'object' && value !== null ? value : { from: value }),
  strict({ from: sourceName.optional(), expr: scalarText.optional() }).refine(
    (spec) => (spec.from === undefined) !== (spec.expr === undefined),
    { error: "give a column, or one of 'from' and 'expr'" },
  ),
);

const spotSpec = strict({ x: coordinate, y: coordinate, frame: z.string().optional() });
export type SpotSpec = z.infer<typeof spotSpec>;

export const FORMATS = ['csv', 'parquet', 'jsonl'] as const;
export const ENCODINGS = ['utf-8', 'latin-1', 'utf-16'] as const;
const readingShape = {
  format: word(FORMATS, 'a format').optional(),
  delimiter: single.optional(),
  decimal: word([',', '.'], 'a decimal mark').optional(),
  quote: z.union([single, z.literal('')]).optional(),
  encoding: word(ENCODINGS, 'an encoding').optional(),
  empty: z.array(scalarText).optional(),
};
export interface ReadingOptions {
  readonly format?: (typeof FORMATS)[number] | undefined;
  readonly delimiter?: string | undefined;
  readonly decimal?: ',' | '.' | undefined;
  /** One character, or '' for files without quoting. */
  readonly quote?: string | undefined;
  readonly encoding?: (typeof ENCODINGS)[number] | undefined;
  /** Words that mean an empty cell. */
  readonly empty?: readonly string[] | undefined;
}

const fileSpec = z.preprocess(
  (value) => (typeof value === 'string' ? { path: value } : value),
  strict({ path: z.string().min(1), ...readingShape }),
);

const wideSpec = strict({
  play_id: columnSpec,
  frame: z.string().optional(),
  positions: z.record(
    z.string().regex(/^[1-9]$/, { error: (issue) => `'${String(issue.input)}' is not a position; they are 1 to 9` }),
    strict({ fielder_id: columnSpec, x: coordinate.optional(), y: coordinate.optional() }),
    { error: (issue) => (issue.code === 'invalid_key' ? 'a position must be a number 1 to 9' : undefined) },
  ),
});
export type WideSpec = z.infer<typeof wideSpec>;

export const SPOTS: Record<IncomingTableName, readonly string[]> = {
  plays: ['landing', 'gather'],
  starts: ['start'],
  people: [],
  field_time: [],
};

function sectionSpec(table: IncomingTableName) {
  const columns: Record<string, z.ZodOptional<typeof columnSpec>> = {};
  for (const { name } of INCOMING_TABLES[table].columns) columns[name] = columnSpec.optional();
  const spots: Record<string, z.ZodOptional<typeof spotSpec>> = {};
  for (const spot of SPOTS[table]) spots[spot] = spotSpec.optional();
  const shape = {
    files: z.array(fileSpec).min(1),
    ...readingShape,
    columns: z.preprocess((value) => value ?? {}, strict(columns)),
  };
  const withSpots = SPOTS[table].length === 0 ? shape : { ...shape, spots: strict(spots).optional() };
  const section = strict(table === 'starts' ? { ...withSpots, wide: wideSpec.optional() } : withSpots);
  // One section, or a list of them for tables that several suppliers fill.
  return z.preprocess((value) => (Array.isArray(value) ? value : [value]), z.array(section).min(1));
}

const frameSpec = strict({
  unit: word(LENGTH_UNITS, 'a unit of length').default('ft'),
  origin_ft: z.tuple([z.number(), z.number()], { error: 'expected two numbers, [x, y] in feet' }).default([0, 0]),
  x_toward: word(DIRECTION_NAMES, 'a direction').default('first_base'),
  y_toward: word(DIRECTION_NAMES, 'a direction').default('centre_field'),
});

const tablesShape = Object.fromEntries(
  (Object.keys(INCOMING_TABLES) as IncomingTableName[]).map((table) => [table, sectionSpec(table).optional()]),
) as { [T in IncomingTableName]: z.ZodOptional<ReturnType<typeof sectionSpec>> };

/** The shape of a mapping file (docs/mapping.md); what depends on more than one key is checked by `readMapping`. */
export const mappingSchema = strict({
  frames: z.record(z.string(), frameSpec).default({}),
  tables: strict(tablesShape).refine((tables) => Object.values(tables).some((table) => table !== undefined), {
    error: `name at least one of ${listWords(Object.keys(INCOMING_TABLES))}`,
  }),
});

/** One section of a table as the schema gives it. */
export interface SectionSpec extends ReadingOptions {
  readonly files: readonly (ReadingOptions & { readonly path: string })[];
  readonly columns?: Readonly<Record<string, ColumnSpec | undefined>> | undefined;
  readonly spots?: Readonly<Record<string, SpotSpec | undefined>> | undefined;
  readonly wide?: WideSpec | undefined;
}

/** Keys that may stand beside a file, and in the block of a column; docs/mapping.md has a word on each. */
export const READING_KEYS = Object.keys(readingShape);
export const COLUMN_KEYS = Object.keys(columnShape);
