import type { IncomingTableName } from '../book/schema.ts';
import type { Expression } from './expression.ts';
import type { Frame } from './frames.ts';
import type { ReadingOptions } from './mapping-schema.ts';
import type { UnitName } from './units.ts';

/** Where the value of a target column comes from, checked and parsed. */
export type ColumnRule =
  | { readonly kind: 'text'; readonly from: string }
  | { readonly kind: 'date'; readonly from: string; readonly format: string }
  | { readonly kind: 'words'; readonly from: string; readonly values: ReadonlyMap<string, string> }
  | { readonly kind: 'pattern'; readonly from: string; readonly pattern: string; readonly captures: boolean }
  | { readonly kind: 'unit'; readonly from: string; readonly unit: UnitName }
  | { readonly kind: 'expression'; readonly text: string; readonly expression: Expression; readonly unit?: UnitName }
  | { readonly kind: 'constant'; readonly value: string }
  | { readonly kind: 'join'; readonly from: readonly string[]; readonly separator: string };

/** Two target columns filled from a spot of a user's frame. */
export interface SpotRule {
  /** `gather` fills gather_x_ft and gather_y_ft. */
  readonly name: string;
  readonly x: ColumnRule;
  readonly y: ColumnRule;
  readonly frame: Frame;
}

/** How one kind of row is made out of a source row. A wide file of starts has one of these for each position. */
export interface RowRule {
  readonly columns: ReadonlyMap<string, ColumnRule>;
  readonly spots: readonly SpotRule[];
}

export interface FilePattern extends ReadingOptions {
  readonly path: string;
}

/** The files of one table that are read in the same way. */
export interface Section {
  readonly table: IncomingTableName;
  readonly files: readonly FilePattern[];
  /** One rule, or as many as a source row gives rows (wide starts). */
  readonly rows: readonly RowRule[];
  /** True for wide starts: a position whose cells are all empty gives no row. */
  readonly wide: boolean;
  /** Where the section stands in the mapping, for messages: `tables.plays`. */
  readonly path: string;
}

export interface Mapping {
  /** The mapping file. Paths of source files are relative to its folder. */
  readonly file: string;
  readonly sections: readonly Section[];
}
