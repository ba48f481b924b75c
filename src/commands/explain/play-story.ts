import type { PlayCase } from '../../ledger/play-case.ts';
import type { Explanation } from './explanation.ts';
import type { PlayScene } from './play-scene.ts';

/** One play, told and taken out of its book. */
export interface PlayStory {
  readonly explanation: Explanation;
  readonly scene: PlayScene;
  /** Null for a play without a set mark. */
  readonly playCase: PlayCase | null;
}
