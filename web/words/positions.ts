/** The men at positions 1 to 9, as headings name them; index 0 is everybody. */
export const POSITION_MEN = [
  'Defenders',
  'Pitchers',
  'Catchers',
  'First basemen',
  'Second basemen',
  'Third basemen',
  'Shortstops',
  'Left fielders',
  'Centre fielders',
  'Right fielders',
] as const;

/** A man at a position, as in `Left fielder`. */
export const positionMan = (position: number): string =>
  (POSITION_MEN[position] ?? '').replace(/men$/, 'man').replace(/s$/, '');

/** In the order in which analysts ask for them: up the middle first. */
export const POSITIONS_SHOWN = [6, 4, 5, 3, 8, 7, 9, 1, 2] as const;
