/**
 * Chance that a man gathers a ball that men call for, once those before him in the chance order left it. `reach` is his chance
 * by his own run, `left` the chance that nobody before him had it. In the air the men do not try one after the other: one
 * calls, and the others let him. That nobody before him took a ball that they would have had says that it was called
 * his, so that his odds of missing it fall in proportion (docs/decisions/026-called-for.md).
 */
export function leftToHim(reach: number, left: number): number {
  return reach / (reach + (1 - reach) * left);
}
