import { describe, expect, it } from 'vitest';
import { finishFits } from '../../src/chances/finish-model.ts';
import { finishChancesOnOtherGames, finishFitsOnOtherGames } from '../../src/chances/finish-on-other-games.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { type BuildFile, packBuild, unpackBuild, unpackOtherGames } from '../../src/commands/build-file.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { runValues } from '../../src/ledger/runs/run-values.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { fabricatePlays } from '../chances/fabricated-plays.ts';

const build: BuildFile = {
  models: { grounders: null, turn: null, air: null, values: runValues(fabricatePlays([{}, { outs: 0 }])), hits: null },
  groups: [],
  draws: { draws: 24, window: 'season', seed: 1 } as unknown as BuildFile['draws'],
  skills: null,
};

const grounders = selectGrounders(fabricatePlays([{ game: 'a' }, { game: 'b', outs: 0 }]));
const otherGames = fitHere(finishFitsOnOtherGames(grounders, fitHere(finishFits(grounders))));
const files = packBuild(build, otherGames);
/** Reads the files as packed but for some of what is in them. */
const reader = (changed: object) => async (asked: string) => {
  const stored = JSON.parse(new TextDecoder().decode(files[asked]!));
  return new TextEncoder().encode(JSON.stringify({ ...stored, ...changed }));
};

describe('the models of a build', () => {
  it('come back as they were', async () => {
    expect(await unpackBuild(reader({}))).toEqual(build);
  });

  it('on other games come back and say the same', async () => {
    const read = await unpackOtherGames(reader({}));
    expect(read.length).toBeGreaterThan(1);
    const marks = finishChancesOnOtherGames(otherGames, grounders);
    expect(marks.every((mark) => mark > 0)).toBe(true);
    expect(finishChancesOnOtherGames(read, grounders)).toEqual(marks);
  });

  it.each([{ format: undefined }, { format: 0 }, { format: 1000 }])(
    'of another format ask for a build: %o',
    async (other) => {
      for (const refused of [unpackBuild(reader(other)), unpackOtherGames(reader(other))]) {
        await expect(refused).rejects.toBeInstanceOf(ExpectedFailure);
        await expect(refused).rejects.toThrow(/models of the book cannot be used.*format/);
      }
    },
  );
});
