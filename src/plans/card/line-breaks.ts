/** A line on a card may end after a blank, but not before a per cent sign, and after a hyphen between letters, but not after a minus. */
export const BREAKS = /(?<= )(?!%)|(?<=\p{L}-)/u;
