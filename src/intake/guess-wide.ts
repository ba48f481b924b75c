import type { ColumnProfile } from './profile-columns.ts';

/** Columns that come once for every position: who stood there, and where. */
export interface WideGuess {
  readonly positions: readonly {
    readonly position: number;
    readonly fielder: ColumnProfile;
    readonly x: ColumnProfile;
    readonly y: ColumnProfile;
  }[];
}

/** Columns whose names differ only in a digit 1 to 9 that is the position: F3 X3 Y3, F4 X4 Y4, ... */
export function guessWide(profiles: readonly ColumnProfile[]): WideGuess | undefined {
  const stems = new Map<string, Map<number, ColumnProfile>>();
  for (const profile of profiles) {
    const match = /^(\D*)([1-9])(\D*)$/.exec(profile.name);
    if (match === null) continue;
    const stem = `${match[1]}#${match[3]}`;
    if (!stems.has(stem)) stems.set(stem, new Map());
    stems.get(stem)!.set(Number(match[2]), profile);
  }
  const full = [...stems].filter(([, columns]) => columns.size >= 4);
  const numeric = ([, columns]: (typeof full)[number]) =>
    [...columns.values()].every(({ kind, whole }) => kind === 'empty' || (kind === 'number' && !whole));
  const coordinates = full.filter(numeric);
  const axis = (letter: string) => coordinates.find(([stem]) => new RegExp(`${letter}(?![a-z])`, 'i').test(stem))?.[1];
  const [x, y] = [axis('x'), axis('y')];
  const fielders = full.find((stem) => !numeric(stem))?.[1];
  if (x === undefined || y === undefined || fielders === undefined || x === y) return undefined;
  const positions = [...fielders]
    .sort(([a], [b]) => a - b)
    .flatMap(([position, fielder]) =>
      x.has(position) && y.has(position) ? [{ position, fielder, x: x.get(position)!, y: y.get(position)! }] : [],
    );
  return positions.length === 0 ? undefined : { positions };
}
