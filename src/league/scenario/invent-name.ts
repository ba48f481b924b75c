import type { Random } from '../../numeric/random.ts';

const OPENINGS = [
  'Bra',
  'Cal',
  'Do',
  'El',
  'Fen',
  'Gar',
  'Ho',
  'Il',
  'Jor',
  'Ke',
  'Lu',
  'Mar',
  'Nol',
  'Os',
  'Per',
  'Ro',
  'Sil',
  'Ta',
  'Ur',
  'Vel',
  'Wen',
  'Yor',
  'Zan',
];
const MIDDLES = ['', '', 'la', 'ri', 'mo', 've', 'da', 'no', 'be'];
const GIVEN_ENDS = ['n', 'ck', 'do', 'ric', 'lan', 'vin', 'm', 'sso', 'ty', 'l'];
const FAMILY_ENDS = [
  'mont',
  'stead',
  'ovar',
  'ick',
  'enko',
  'ardo',
  'well',
  'strom',
  'quist',
  'amura',
  'ez',
  'oury',
  'dell',
  'bane',
];

const pick = (list: readonly string[], random: Random) => list[random.integer(list.length)]!;

/** A made-up given and family name from syllables. */
export function inventName(random: Random): string {
  const given = pick(OPENINGS, random) + pick(MIDDLES, random) + pick(GIVEN_ENDS, random);
  return `${given} ${pick(OPENINGS, random)}${pick(MIDDLES, random)}${pick(FAMILY_ENDS, random)}`;
}
