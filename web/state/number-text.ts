const MINUS = '\u2212';
const wholes = new Intl.NumberFormat('en', { maximumFractionDigits: 0 });

/** A count with its thousands apart. */
export function count(value: number): string {
  return wholes.format(value);
}

/** A number with its sign, because plus and minus are what it is about; a rounded zero has none. Empty for none. */
export function signed(value: number | null | undefined, decimals = 1): string {
  if (value === null || value === undefined || Number.isNaN(value)) return '';
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return text;
  return `${value < 0 ? MINUS : '+'}${text}`;
}

/** A number at an axis about zero: with its sign, and with a decimal only where it has one. */
export function signedTick(value: number): string {
  return value === 0 ? '0' : signed(value, Number.isInteger(value) ? 0 : 1);
}

/** A number with a real minus; empty for none. */
export function plain(value: number | null | undefined, decimals = 1): string {
  if (value === null || value === undefined || Number.isNaN(value)) return '';
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/** A chance as players write it: `.440`, `1`, `0`. Empty for none. */
export function chance(value: number | null | undefined, decimals = 3): string {
  if (value === null || value === undefined || Number.isNaN(value)) return '';
  const text = value.toFixed(decimals);
  if (Number(text) === 1) return '1';
  if (value === 0) return '0';
  return text.replace(/^0/, '').replace(/^-0?/, MINUS);
}

/** A share in per cent. */
export function percent(share: number | null | undefined, decimals = 0): string {
  if (share === null || share === undefined || Number.isNaN(share)) return '';
  return `${(100 * share).toFixed(decimals)} %`;
}
