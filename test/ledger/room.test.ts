import { beforeAll, describe, expect, it } from 'vitest';
import { predictDirectOpening } from '../../src/chances/direct-opening.ts';
import { finishChances } from '../../src/chances/finish-model.ts';
import { FULL } from '../../src/chances/grades.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import type { ClassLedger } from '../../src/ledger/class-ledger.ts';
import { PLACEMENT } from '../../src/ledger/entry-kinds.ts';
import { scorePlays } from '../../src/ledger/score-plays.ts';
import { SILENT } from '../../src/progress.ts';
import { DEMO_DRAWS, type ScoredLeague, scoreLeague } from '../helpers/scored-league.ts';

describe('room to gain', () => {
  let scored: ScoredLeague;
  let ledger: ClassLedger;
  /** Placement by play and man, as room is laid out. */
  let placement: Float64Array;
  beforeAll(() => {
    scored = scoreLeague({ seasons: 1, teams: 4, seed: 3, ballsPerSeason: 1500 });
    ledger = scored.ledger;
    const { entries, plays } = ledger;
    placement = new Float64Array(ledger.room.length);
    for (let e = 0; e < entries.count; e += 1) {
      if (entries.kind[e] === PLACEMENT)
        placement[entries.play[e] * plays.men + entries.position[e] - 1] = entries.outs[e];
    }
  });

  /** The movable men of each fully recorded play who had any part in its placement. */
  function* partners(count: number): Generator<{ at: number; men: number[] }> {
    const { plays, grade, room } = ledger;
    for (let at = 0; at < plays.count; at += 1) {
      if (grade[at] !== FULL) continue;
      const men = MOVABLE_ON_GROUNDERS.filter(
        (k) => placement[at * plays.men + k] !== 0 || room[at * plays.men + k] !== 0,
      );
      if (men.length === count) yield { at, men };
    }
  }

  it('of one man who alone moves is his placement, turned round', () => {
    const { grounders, models } = scored;
    const alone = scorePlays(
      grounders,
      {
        chances: new GrounderChances(grounders, models),
        movable: [5],
        stakeRuns: new Float64Array(grounders.count).fill(1),
        forecast: {
          direct: predictDirectOpening(models.direct, grounders),
          finish: finishChances(models.finish, grounders),
        },
      },
      DEMO_DRAWS,
      SILENT,
    );
    let seen = 0;
    for (let e = 0; e < alone.entries.count; e += 1) {
      if (alone.entries.kind[e] !== PLACEMENT) continue;
      expect(alone.room[alone.entries.play[e]! * grounders.men + 5]).toBeCloseTo(-alone.entries.outs[e]!, 12);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(300);
  });

  it('of two exceeds what placement charges them by half of what they share, the same half for both', () => {
    let [seen, shared] = [0, 0];
    for (const { at, men } of partners(2)) {
      const [one, two] = men.map((k) => at * ledger.plays.men + k) as [number, number];
      const half = ledger.room[one]! + placement[one]!;
      expect(ledger.room[two]! + placement[two]!).toBeCloseTo(half, 12);
      // Both moved at once: opening less set.
      const both = ledger.opening[at]! - ledger.set[at]!;
      expect(ledger.room[one]! + ledger.room[two]! - both).toBeCloseTo(2 * half, 12);
      if (Math.abs(half) > 1e-3) shared += 1;
      seen += 1;
    }
    expect(seen).toBeGreaterThan(50);
    expect(shared).toBeGreaterThan(10);
  });

  it('is nothing for pitcher and catcher, who do not move', () => {
    const { plays, room } = ledger;
    for (let at = 0; at < plays.count; at += 1) for (const k of [0, 1]) expect(room[at * plays.men + k]).toBe(0);
  });
});
