export type TextCell = string | number | boolean | null;

/** A column of a printed table; numbers stand to the right, with `decimals` places if given. */
export interface TextColumn {
  readonly name: string;
  readonly decimals?: number;
  /** Writes a plus before positive numbers, for what is a gain or a loss. */
  readonly signed?: boolean;
}

/** Lays rows out in columns two blanks apart under their names. Empty cells are left blank. Ends with a line feed. */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly TextCell[])[]): string {
  const body = rows.map((row) => columns.map((column, index) => cellText(row[index] ?? null, column)));
  const widths = columns.map((column, index) =>
    Math.max(column.name.length, ...body.map((row) => (row[index] ?? '').length)),
  );
  const right = columns.map((_, index) => rows.some((row) => typeof row[index] === 'number'));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, index) => (right[index] ? cell.padStart(widths[index]!) : cell.padEnd(widths[index]!)))
      .join('  ')
      .trimEnd();
  return `${[line(columns.map((column) => column.name)), ...body.map(line)].join('\n')}\n`;
}

function cellText(cell: TextCell, { decimals, signed }: TextColumn): string {
  if (cell === null || Number.isNaN(cell)) return '';
  // Control characters of somebody's data must not reach the terminal.
  if (typeof cell !== 'number') return String(cell).replace(/\p{Cc}/gu, '·');
  const text = decimals === undefined ? String(cell) : cell.toFixed(decimals);
  const zero = Number(text) === 0;
  if (zero) return text.replace('-', '');
  return signed && cell > 0 ? `+${text}` : text;
}
