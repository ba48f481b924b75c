export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** Width and height in points, a 72nd of an inch (ISO 216; ANSI A). */
export const PAPER_SIZES: Readonly<Record<Paper, readonly [number, number]>> = {
  a4: [595.28, 841.89],
  letter: [612, 792],
};
