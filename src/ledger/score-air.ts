import type { AirBalls } from '../chances/air/air-balls.ts';
import { AirChances, MOVABLE_IN_THE_AIR } from '../chances/air/air-chances.ts';
import { predictAirDirect } from '../chances/air/air-direct.ts';
import type { AirModels } from '../chances/air/air-models.ts';
import { projectFlights } from '../chances/air/carry.ts';
import { airFinishChances } from '../chances/air/hop-outs.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import { FULL, WHOLE } from '../chances/grades.ts';
import type { Progress } from '../progress.ts';
import type { ClassLedger } from './class-ledger.ts';
import { FINISH, REACH } from './entry-kinds.ts';
import { scorePlays } from './score-plays.ts';

/** Scores every ball in the air with its models; `stakeRuns` has the length of the balls. */
export function scoreAir(
  balls: AirBalls,
  models: AirModels,
  stakeRuns: Float64Array,
  settings: DrawSettings,
  progress: Progress,
): ClassLedger {
  const scoring = {
    chances: new AirChances(balls, models),
    movable: MOVABLE_IN_THE_AIR,
    stakeRuns,
    forecast: {
      direct: predictAirDirect(models.direct, balls, projectFlights(balls, models.carry)),
      finish: airFinishChances(models.hopRates, balls),
    },
  };
  const ledger = scorePlays(balls, scoring, settings, progress);
  addHopEntries(balls, ledger);
  return ledger;
}

/**
 * A ball that fell is nobody's gather, but who picks it up may still make an out with it: he begins from nothing, is given
 * what a ball on the hop is worth as reach, and what he makes of it as finish, so that the entries add up.
 */
function addHopEntries(balls: AirBalls, { entries, gathered, grade, stakeRuns }: ClassLedger): void {
  for (let at = 0; at < balls.count; at += 1) {
    const by = balls.hopBy[at];
    if (by === 0 || grade[at] === WHOLE) continue;
    if (grade[at] === FULL) entries.add(at, by, REACH, gathered[at], stakeRuns[at]);
    entries.add(at, by, FINISH, balls.closed[at] - gathered[at], stakeRuns[at]);
  }
}
