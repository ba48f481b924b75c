import { normalFrom } from './normal-from.ts';

/**
 * The luck of one play, drawn before it starts, so that two replays on the same numbers differ only by the men and
 * places: a first step and a handling a position, then the draws of the throw and the runners.
 */
export interface PlayDraws {
  /** Standard normals by position, 1 to 9. */
  readonly step: Float64Array;
  /** Uniforms by position, 1 to 9. */
  readonly handle: Float64Array;
  readonly batterRun: number;
  readonly runnerRun: number;
  readonly release: number;
  readonly wild: number;
  readonly secondWild: number;
  readonly bobble: number;
  readonly dare: number;
  readonly extra: number;
}

export type PlayDrawsDraft = { -readonly [K in keyof PlayDraws]: PlayDraws[K] };

export function allocatePlayDraws(): PlayDrawsDraft {
  return {
    step: new Float64Array(10),
    handle: new Float64Array(10),
    batterRun: 0,
    runnerRun: 0,
    release: 0,
    wild: 1,
    secondWild: 1,
    bobble: 0.5,
    dare: 0,
    extra: 0.5,
  };
}

/** Fills the draws of one play; always the same count of uniforms. */
export function drawPlay(random: () => number, draws: PlayDrawsDraft): void {
  for (let p = 1; p <= 9; p += 1) {
    draws.step[p] = normalFrom(random);
    draws.handle[p] = random();
  }
  draws.batterRun = normalFrom(random);
  draws.runnerRun = normalFrom(random);
  draws.release = normalFrom(random);
  draws.dare = normalFrom(random);
  draws.wild = random();
  draws.secondWild = random();
  draws.bobble = random();
  draws.extra = random();
}
