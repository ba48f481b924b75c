import { describe, expect, it } from 'vitest';
import {
  BASE_PATH_FT,
  BASE_SPOTS,
  CATCHER_START,
  INFIELD_ARC_FT,
  PITCHER_START,
  PITCHERS_PLATE_FT,
} from '../../src/diamond/field.ts';

const [, first, second, third, home] = BASE_SPOTS;
const INCHES = 1 / 12;

describe('the field by the rule book', () => {
  it('has a square of 90 ft (Official Baseball Rules, 2.01)', () => {
    expect(BASE_PATH_FT).toBe(90);
    const corners = [home!, first!, second!, third!, home!];
    for (let k = 0; k < 4; k += 1) {
      expect(Math.hypot(corners[k + 1]!.x - corners[k]!.x, corners[k + 1]!.y - corners[k]!.y)).toBeCloseTo(90, 12);
    }
  });

  it('has second base 127 ft 3 3/8 in from home (OBR 2.01), to the eighth of an inch to which the book rounds', () => {
    expect(Math.abs(second!.y - (127 + (3 + 3 / 8) * INCHES))).toBeLessThan((1 / 16) * INCHES);
    expect(second!.y).toBeCloseTo(90 * Math.SQRT2, 12);
    expect(second!.x).toBe(0);
  });

  it('has first on the +x side and third opposite, on lines of 45 degrees', () => {
    expect(first!.x).toBeCloseTo(first!.y, 12);
    expect(first!.x).toBeGreaterThan(0);
    expect(third!.x).toBe(-first!.x);
    expect(third!.y).toBe(first!.y);
    expect(home).toEqual({ x: 0, y: 0 });
  });

  it("has the pitcher's plate 60 ft 6 in from home (OBR 2.01), the pitcher in front of it, the catcher behind home", () => {
    expect(PITCHERS_PLATE_FT).toBe(60 + 6 * INCHES);
    // The mound is 18 ft across, its centre 59 ft from home (OBR 2.01, 2.04): the pitcher lands on it.
    expect(Math.abs(PITCHER_START.y - 59)).toBeLessThan(9);
    expect(PITCHER_START.y).toBeLessThan(PITCHERS_PLATE_FT);
    expect(PITCHER_START.x).toBe(0);
    expect(CATCHER_START.y).toBeLessThan(0);
  });

  it('has a grass arc as far from home as calculated apart', () => {
    // Radius 95 ft about the middle of the pitcher's plate (from memory); distances calculated outside the project.
    expect(INFIELD_ARC_FT).toBe(95);
    const distances = [155.5, 153.998, 149.571, 142.45, 133.021, 127.603];
    [0, 10, 20, 30, 40, 45].forEach((degrees, k) => {
      const angle = (degrees * Math.PI) / 180;
      const across = PITCHERS_PLATE_FT * Math.sin(angle);
      const distance = PITCHERS_PLATE_FT * Math.cos(angle) + Math.sqrt(INFIELD_ARC_FT ** 2 - across ** 2);
      expect(distance).toBeCloseTo(distances[k]!, 3);
    });
  });
});
