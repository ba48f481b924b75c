import { describe, expect, it } from 'vitest';
import { finishChancesOnOtherGames } from '../../src/chances/finish-on-other-games.ts';
import { fitGrounderModels } from '../../src/chances/grounder-models.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { averageOnGround, groundRatingFits, type RatingModels } from '../../src/chances/rating-models.ts';
import { type BuildFile, packBuild, unpackBuild, unpackRatingModels } from '../../src/commands/build-file.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { runValues } from '../../src/ledger/runs/run-values.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { SILENT } from '../../src/progress.ts';
import { fabricatePlays } from '../chances/fabricated-plays.ts';

const build: BuildFile = {
  models: { grounders: null, turn: null, air: null, values: runValues(fabricatePlays([{}, { outs: 0 }])), hits: null },
  groups: [],
  draws: { draws: 24, window: 'season', seed: 1 } as unknown as BuildFile['draws'],
  skills: null,
};

const grounders = selectGrounders(fabricatePlays([{ game: 'a' }, { game: 'b', outs: 0 }]));
const models = fitGrounderModels(grounders, SILENT);
const forRatings: RatingModels = { ...fitHere(groundRatingFits(grounders, models)), airReach: [] };
const files = packBuild(build, forRatings);
/** Reads the files as packed but for some of what is in them. */
const reader = (changed: object) => async (asked: string) => {
  const stored = JSON.parse(new TextDecoder().decode(files[asked]!));
  return new TextEncoder().encode(JSON.stringify({ ...stored, ...changed }));
};

describe('the models of a build', () => {
  it('come back as they were', async () => {
    expect(await unpackBuild(reader({}))).toEqual(build);
  });

  it('that ratings ask come back and say the same', async () => {
    const read = await unpackRatingModels(reader({}));
    expect(read.finishOnOtherGames.length).toBeGreaterThan(1);
    const marks = finishChancesOnOtherGames(forRatings.finishOnOtherGames, grounders);
    expect(marks.every((mark) => mark > 0)).toBe(true);
    expect(finishChancesOnOtherGames(read.finishOnOtherGames, grounders)).toEqual(marks);
    const reachOf = (own: RatingModels) => {
      const chances = averageOnGround(grounders, models, own);
      chances.setBall(0, 0);
      chances.standAt(5, grounders.starts[10]!, grounders.starts[11]!);
      return chances.reach;
    };
    expect(reachOf(forRatings)).toBeGreaterThan(0);
    expect(reachOf(read)).toBe(reachOf(forRatings));
  });

  it.each([{ format: undefined }, { format: 0 }, { format: 1000 }])(
    'of another format ask for a build: %o',
    async (other) => {
      for (const refused of [unpackBuild(reader(other)), unpackRatingModels(reader(other))]) {
        await expect(refused).rejects.toBeInstanceOf(ExpectedFailure);
        await expect(refused).rejects.toThrow(/models of the book cannot be used.*format/);
      }
    },
  );
});
