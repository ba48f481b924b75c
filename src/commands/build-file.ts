import type { DrawSettings } from '../chances/even-draws.ts';
import type { GrounderModels } from '../chances/grounder-models.ts';
import { fromGrounderModelsFile, toGrounderModelsFile } from '../chances/grounder-models-file.ts';
import type { BalanceGroup } from '../ledger/balance.ts';

export const BUILD_FILE = 'grounders.json';

/** What a build leaves beside its tables so that one play can be scored again, the same to the last bit. */
export interface BuildFile {
  readonly models: GrounderModels;
  readonly groups: readonly BalanceGroup[];
  readonly draws: DrawSettings;
}

/** Model files of a build, by name. */
export function packBuild(
  models: GrounderModels,
  groups: readonly BalanceGroup[],
  draws: DrawSettings,
): Record<string, Uint8Array> {
  const settings = { draws: draws.draws, window: draws.window, seed: draws.seed };
  const text = JSON.stringify({ models: toGrounderModelsFile(models), groups, draws: settings });
  return { [BUILD_FILE]: new TextEncoder().encode(text) };
}

export function unpackBuild(bytes: Uint8Array): BuildFile {
  const file = JSON.parse(new TextDecoder().decode(bytes));
  return { models: fromGrounderModelsFile(file.models), groups: file.groups, draws: file.draws };
}
