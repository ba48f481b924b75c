import { describe, expect, it } from 'vitest';
import { type BuildFile, packBuild, unpackBuild } from '../../src/commands/build-file.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { runValues } from '../../src/ledger/runs/run-values.ts';
import { fabricatePlays } from '../chances/fabricated-plays.ts';

const build: BuildFile = {
  models: { grounders: null, turn: null, air: null, values: runValues(fabricatePlays([{}, { outs: 0 }])), hits: null },
  groups: [],
  draws: { draws: 24, window: 'season', seed: 1 } as unknown as BuildFile['draws'],
  skills: null,
};

const [[name, bytes]] = Object.entries(packBuild(build)) as [[string, Uint8Array]];
const stored = JSON.parse(new TextDecoder().decode(bytes));
const reader = (changed: object) => async (asked: string) => {
  expect(asked).toBe(name);
  return new TextEncoder().encode(JSON.stringify({ ...stored, ...changed }));
};

describe('the models of a build', () => {
  it('come back as they were', async () => {
    expect(await unpackBuild(reader({}))).toEqual(build);
  });

  it.each([{ format: undefined }, { format: 0 }, { format: 1000 }])(
    'of another format ask for a build: %o',
    async (other) => {
      const refused = unpackBuild(reader(other));
      await expect(refused).rejects.toBeInstanceOf(ExpectedFailure);
      await expect(refused).rejects.toThrow(/models of the book cannot be used.*format/);
    },
  );
});
