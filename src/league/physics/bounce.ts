import type { Ground } from './ground.ts';

/** The harder a ball comes down, the less of its downward speed comes back. */
const SPRING_LOST_PER_FT_S = 0.0045;
const LEAST_SPRING = 0.28;

/**
 * One contact with the ground, in place: the upward speed by the ground's spring, the flat speed such that the whole
 * keeps the ground's share of energy. A steep ball cannot gain flat speed, so it keeps less than that share.
 */
export function bounce(velocity: { x: number; y: number; z: number }, ground: Ground, hop: number): void {
  const down = -velocity.z;
  const flat2 = velocity.x * velocity.x + velocity.y * velocity.y;
  const spring = Math.max(LEAST_SPRING, ground.springBack - SPRING_LOST_PER_FT_S * down) * hop;
  const up = Math.min(spring * down, Math.sqrt(ground.energyKept) * down);
  const left2 = ground.energyKept * (flat2 + down * down) - up * up;
  const keep = flat2 > 0 ? Math.min(1, Math.sqrt(Math.max(0, left2) / flat2)) : 0;
  velocity.x *= keep;
  velocity.y *= keep;
  velocity.z = up;
}
