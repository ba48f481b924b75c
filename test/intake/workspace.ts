import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { openBook } from '../../src/book/open-book.ts';
import type { Cell, Store } from '../../src/book/store.ts';
import { type IntakeOptions, type IntakeReport, intake } from '../../src/commands/intake.ts';
import { SILENT } from '../../src/progress.ts';
import { TEST_NOW, temporaryFolder } from '../helpers/temporary-book.ts';

export const EFFECTS = { progress: SILENT, now: TEST_NOW };

/** A folder with a mapping, source files and a book. */
export interface Workspace {
  readonly path: string;
  write(name: string, content: string | Buffer): string;
  /** Writes `mapping` as mapping.yaml and takes its files into the book. */
  intake(mapping: string, options?: Partial<IntakeOptions>): Promise<IntakeReport>;
  rows(sql: string): Promise<Record<string, Cell>[]>;
  use<T>(work: (store: Store) => Promise<T>): Promise<T>;
  /** Everything that the tables which come in hold, and set_aside, as text. */
  contents(): Promise<string>;
  remove(): void;
}

export function workspace(): Workspace {
  const folder = temporaryFolder();
  const book = join(folder.path, 'book');
  const write = (name: string, content: string | Buffer) => {
    const path = join(folder.path, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
    return path;
  };
  const use = async <T>(work: (store: Store) => Promise<T>) => {
    const opened = await openBook(book, { access: 'read', command: 'test', now: TEST_NOW });
    try {
      return await work(opened.store);
    } finally {
      await opened.close();
    }
  };
  const rows = (sql: string) => use((store) => store.rows(sql));
  return {
    path: folder.path,
    write,
    use,
    rows,
    intake: (mapping, options = {}) => intake({ book, mapping: write('mapping.yaml', mapping), ...options }, EFFECTS),
    contents: () =>
      use(async (store) => {
        const tables = ['plays', 'starts', 'people', 'field_time', 'set_aside'];
        const parts: unknown[] = [];
        for (const table of tables) parts.push(table, await store.rows(`SELECT *, rowid::INTEGER AS at FROM ${table}`));
        return JSON.stringify(parts);
      }),
    remove: folder.remove,
  };
}

/** A play with what the contract requires; cells of CSV in the order of PLAY_COLUMNS. */
export const PLAY = {
  play_id: 'p1',
  game_id: 'g1',
  date: '2031-04-01',
  outs_before: '0',
  batting_team: 'Alders',
  fielding_team: 'Birches',
  batter_id: 'a1',
  batter_side: 'R',
  pitcher_id: 'b1',
  ball_kind: 'ground',
  exit_speed_mph: '90',
  launch_angle_deg: '-5',
  bearing_deg: '10',
  landing_x_ft: '',
  landing_y_ft: '',
  gathered_by: '4',
  gather_x_ft: '30',
  gather_y_ft: '120',
  gather_time_s: '1.5',
  outs_made: '1',
  result: 'out',
};
export type PlayCells = Record<keyof typeof PLAY, string>;
export const PLAY_COLUMNS = Object.keys(PLAY) as (keyof typeof PLAY)[];

export function play(change: Partial<PlayCells> = {}): PlayCells {
  return { ...PLAY, ...change };
}

/** Rows as CSV, every cell quoted when it must be. */
export function csv(columns: readonly string[], rows: readonly Record<string, string>[], delimiter = ','): string {
  const cell = (text: string) =>
    text.includes('"') || text.includes(delimiter) || /[\r\n]/.test(text) || /^ | $/.test(text)
      ? `"${text.replaceAll('"', '""')}"`
      : text;
  const lines = [columns, ...rows.map((row) => columns.map((column) => row[column] ?? ''))];
  return `${lines.map((cells) => cells.map(cell).join(delimiter)).join('\n')}\n`;
}

export const playsCsv = (rows: readonly Partial<PlayCells>[]) => csv(PLAY_COLUMNS, rows.map(play));

const own = (columns: readonly string[]) => columns.map((name) => `      ${name}: ${name}`).join('\n');
/** Mapping lines under `tables:` for files that use the contract's own names. */
export const PLAYS_MAPPING = `  plays:\n    files: [plays.csv]\n    columns:\n${own(PLAY_COLUMNS)}\n`;
export const START_COLUMNS = ['play_id', 'position', 'fielder_id', 'start_x_ft', 'start_y_ft'] as const;
export const STARTS_MAPPING = `  starts:\n    files: [starts.csv]\n    columns:\n${own(START_COLUMNS)}\n`;
export const MAPPING = `tables:\n${PLAYS_MAPPING}`;
export const BOTH_MAPPING = `tables:\n${PLAYS_MAPPING}${STARTS_MAPPING}`;

export const startsCsv = (rows: readonly Partial<Record<(typeof START_COLUMNS)[number], string>>[]) =>
  csv(
    START_COLUMNS,
    rows.map((row) => ({ play_id: 'p1', start_x_ft: '10', start_y_ft: '120', ...row })),
  );
