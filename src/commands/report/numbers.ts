import { normalQuantile } from '../../numeric/normal-quantile.ts';

/** Half the width of an 80 % interval in standard errors. */
const HALF_80 = normalQuantile(0.9);

/** A number of a result row; NaN for an empty cell. */
export const numberOf = (cell: unknown) => (typeof cell === 'number' ? cell : Number.NaN);

/** An amount that may be lost or gained, with a true minus; empty for NaN. */
export function signed(value: number, decimals = 1): string {
  if (Number.isNaN(value)) return '';
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '\u2212' : '+'}${text}`;
}

export const plain = (value: number, decimals = 0) => (Number.isNaN(value) ? '' : value.toFixed(decimals));

export const percent = (share: number) => (Number.isNaN(share) ? '' : `${(100 * share).toFixed(0)} %`);

export interface Range {
  readonly value: number;
  readonly lo: number;
  readonly hi: number;
}

/** The 80 % interval of an estimate with a standard error; without one lo and hi are NaN. */
export const rangeOf = (value: number, se: number): Range => ({
  value,
  lo: value - HALF_80 * se,
  hi: value + HALF_80 * se,
});

/** "+3.2 (+1.0 to +5.4)"; the value alone where there is no interval. */
export function rangeText({ value, lo, hi }: Range, decimals = 1): string {
  if (Number.isNaN(value)) return '';
  if (Number.isNaN(lo)) return signed(value, decimals);
  return `${signed(value, decimals)} (${signed(lo, decimals)} to ${signed(hi, decimals)})`;
}
