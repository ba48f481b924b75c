const INCH_FT = 1 / 12;

/** First season of the larger bags (press, 2023). */
const LARGE_BAG_SEASON = 2023;

/** Side of the bags at first, second and third, feet: 15 in to 2022, 18 in from 2023. */
export function bagSideFt(season: number): number {
  return (season < LARGE_BAG_SEASON ? 15 : 18) * INCH_FT;
}

/**
 * How far the bag at second reaches to either side of the line from home through its middle, feet. Its sides run with the
 * base lines, so that home sees it on edge: half the diagonal.
 */
export function secondBagHalfWidthFt(season: number): number {
  return bagSideFt(season) / Math.SQRT2;
}
