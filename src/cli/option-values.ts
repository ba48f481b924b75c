import { InvalidArgumentError } from 'commander';

/** Reads a whole number between `min` and `max`; commander puts the option's name before the message. */
export function wholeNumber(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!/^[+-]?\d+$/.test(text.trim()) || value < min || value > max) {
      throw new InvalidArgumentError(`It must be a whole number from ${min} to ${max}.`);
    }
    return value;
  };
}

/** The largest seed: seeds are 32-bit so that every generator can take them. */
export const MAX_SEED = 2 ** 32 - 1;

/** The option `threads`, left out when it was not given. */
export function threadsOf({ threads }: { readonly threads?: number }): { readonly threads?: number } {
  return threads === undefined ? {} : { threads };
}
