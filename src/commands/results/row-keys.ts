import type { FielderRow } from '../../ledger/fielder-rows.ts';

/** Names a row by what it is of. */
export const seasonKey = ({ season, fielder, position, team }: FielderRow) =>
  `${season} ${fielder} ${position} ${team}`;
export const careerKey = ({ fielder, position }: Pick<FielderRow, 'fielder' | 'position'>) => `${fielder} ${position}`;
export const clubKey = ({ season, team }: Pick<FielderRow, 'season' | 'team'>) => `${season} ${team}`;

/** The rows that sums have standard errors by. */
export const ERROR_KEYS = { season: seasonKey, career: careerKey, club: clubKey };
export type ErrorRows = keyof typeof ERROR_KEYS;
