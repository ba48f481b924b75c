import { ARM_LENGTH_FT } from './men.ts';

/** What a man may do with a ball that he got to; the four add up to 1. */
export interface Handling {
  /** It goes by him untouched. */
  missed: number;
  /** He touches it and it is dead to everybody: no play. */
  booted: number;
  /** He has it, but only at the second try. */
  bobbled: number;
  clean: number;
}

const sigma = (logit: number) => 1 / (1 + Math.exp(-logit));

/** Chances on the ground, by the feet his arm had to make up, the ball's speed there (ft/s) and his hands. */
export function handleGrounder(needFt: number, speed: number, hands: number, out: Handling): void {
  const stretch = Math.max(0, needFt) / ARM_LENGTH_FT;
  const heat = speed - 80;
  out.missed = sigma(-4.9 + 2.6 * stretch + 0.022 * heat - 0.3 * hands);
  const touched = 1 - out.missed;
  out.booted = touched * sigma(-3.65 + 1.2 * stretch + 0.017 * heat - hands);
  out.bobbled = (touched - out.booted) * sigma(-3.2 + 1.2 * stretch + 0.015 * heat - hands);
  out.clean = touched - out.booted - out.bobbled;
}

/** Chances of a catch before the ball comes down: nearly sure for a man who waits, poor for one who dives. */
export function handleCatch(needFt: number, speed: number, hands: number, out: Handling): void {
  const stretch = Math.max(0, needFt) / ARM_LENGTH_FT;
  const ease = Math.min(0, needFt + 4) < 0 ? 0.8 : 0;
  out.missed = sigma(-5 - ease + 3 * stretch + 0.036 * (speed - 90) - 0.5 * hands);
  const touched = 1 - out.missed;
  out.booted = touched * sigma(-5.2 - ease + 1.4 * stretch + 0.015 * (speed - 90) - hands);
  out.bobbled = 0;
  out.clean = touched - out.booted;
}
