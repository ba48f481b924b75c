/** One entry's part of a bar: from and to along the axis of runs or outs. */
export interface StackPart {
  readonly kind: string;
  readonly from: number;
  readonly to: number;
}

/** Lays what was gained end to end right of zero and what was lost left of it, in the order of the entries. */
export function stackEntries(entries: readonly { readonly kind: string; readonly value: number }[]): StackPart[] {
  let gained = 0;
  let lost = 0;
  return entries
    .filter(({ value }) => value !== 0 && !Number.isNaN(value))
    .map(({ kind, value }) => {
      const from = value > 0 ? gained : lost;
      const to = from + value;
      if (value > 0) gained = to;
      else lost = to;
      return { kind, from, to };
    });
}

/** Lays the entries one after the other, each from where the last one ended: a staircase from 0 to their sum. */
export function climbEntries(entries: readonly { readonly kind: string; readonly value: number }[]): StackPart[] {
  let height = 0;
  return entries.map(({ kind, value }) => {
    const from = height;
    height += Number.isNaN(value) ? 0 : value;
    return { kind, from, to: height };
  });
}
