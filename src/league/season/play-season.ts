import { dayOf } from '../../numeric/days.ts';
import type { Random } from '../../numeric/random.ts';
import type { Progress } from '../../progress.ts';
import type { Club } from '../scenario/club.ts';
import type { FieldTime } from './field-time.ts';
import { playGame } from './game.ts';
import type { Recorder } from './recorder.ts';
import { dayPairs } from './schedule.ts';

const OPENING_DAY = '04-01';

/** Plays days of games until the season has its balls in play; answers nothing, the recorder has it all. */
export function playSeason(
  clubs: readonly Club[],
  season: number,
  twoASide: boolean,
  balls: number,
  recorder: Recorder,
  fieldTime: FieldTime,
  random: Random,
  progress: Progress,
): void {
  const opening = dayOf(`${season}-${OPENING_DAY}`);
  const start = recorder.count;
  let gameOfSeason = 0;
  progress.stage(`season ${season}`, balls);
  for (let day = 0; ; day += 1) {
    for (const [home, away] of dayPairs(clubs.length, day)) {
      if (recorder.count - start >= balls) {
        progress.finish();
        return;
      }
      gameOfSeason += 1;
      const gameId = `${season}-${String(gameOfSeason).padStart(4, '0')}`;
      const { park, surface } = { park: home, surface: clubs[home]!.surface };
      const game = recorder.plays.games.push(gameId) - 1;
      const base = { season, twoASide, game, gameId, day: opening + day, park, surface };
      playGame(clubs[home]!, clubs[away]!, base, day, recorder, fieldTime, random.fork(gameId));
      progress.advance(recorder.count - start);
    }
  }
}
