/**
 * Units that a mapping may name, each with its size in the project's own unit of that kind (feet, miles per hour,
 * seconds, degrees). Definitions: the international foot is 0.3048 m and the mile 1609.344 m exactly.
 */
const FEET_PER_METRE = 1 / 0.3048;
const MPH_PER_METRE_PER_SECOND = 3600 / 1609.344;

export type UnitKind = 'length' | 'speed' | 'time' | 'angle';

interface Unit {
  readonly kind: UnitKind;
  /** Multiply by this to get the project's unit. */
  readonly factor: number;
}

export const UNITS = {
  ft: { kind: 'length', factor: 1 },
  in: { kind: 'length', factor: 1 / 12 },
  yd: { kind: 'length', factor: 3 },
  m: { kind: 'length', factor: FEET_PER_METRE },
  cm: { kind: 'length', factor: FEET_PER_METRE / 100 },
  mph: { kind: 'speed', factor: 1 },
  'km/h': { kind: 'speed', factor: MPH_PER_METRE_PER_SECOND / 3.6 },
  'm/s': { kind: 'speed', factor: MPH_PER_METRE_PER_SECOND },
  s: { kind: 'time', factor: 1 },
  ms: { kind: 'time', factor: 0.001 },
  deg: { kind: 'angle', factor: 1 },
  rad: { kind: 'angle', factor: 180 / Math.PI },
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof UNITS;
export const UNIT_NAMES = Object.keys(UNITS) as UnitName[];
export const LENGTH_UNITS = UNIT_NAMES.filter((name) => UNITS[name].kind === 'length');

/** Value in the project's unit. Exact inverse up to rounding: `fromOwnUnit`. */
export function toOwnUnit(value: number, unit: UnitName): number {
  return value * UNITS[unit].factor;
}

/** Value in `unit` of a value in the project's unit. */
export function fromOwnUnit(value: number, unit: UnitName): number {
  return value / UNITS[unit].factor;
}

const SUFFIXES: readonly (readonly [string, UnitKind, UnitName])[] = [
  ['_ft', 'length', 'ft'],
  ['_mph', 'speed', 'mph'],
  ['_s', 'time', 's'],
  ['_deg', 'angle', 'deg'],
];

/** What a column of the data contract measures, read off the end of its name; undefined for a column without unit. */
export function unitKindOf(column: string): UnitKind | undefined {
  return SUFFIXES.find(([suffix]) => column.endsWith(suffix))?.[1];
}

/** The units that a column may be given in. */
export function unitsFor(column: string): readonly UnitName[] {
  const kind = unitKindOf(column);
  return kind === undefined ? [] : UNIT_NAMES.filter((name) => UNITS[name].kind === kind);
}
