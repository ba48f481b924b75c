/** Kinds of entry in the order of a play; the code is the index (vocabulary.md, method.md 6 and 9). */
export const ENTRY_KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'whole'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];
export const PLACEMENT = 0;
export const REACH = 1;
export const FINISH = 2;
export const TURN = 3;
export const GROUND_ENTRY = 4;
export const WHOLE_ENTRY = 5;
