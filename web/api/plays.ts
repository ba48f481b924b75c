import { fromSetModelsFile, type SetModels, type SetModelsFile } from '../../src/ledger/set-models.ts';
import type { PlayAnswer } from '../../src/server/answers.ts';
import { askServer } from './ask-server.ts';

export type Explanation = PlayAnswer['explanation'];
export type PlayScene = PlayAnswer['scene'];

/** One play; throws ServerFailure. */
export async function readPlay(playId: string): Promise<PlayAnswer> {
  const answer = await askServer<PlayAnswer>(`/api/play/${encodeURIComponent(playId)}`);
  return { ...answer, explanation: withGaps(answer.explanation), scene: withGaps(answer.scene) };
}

/** Numbers whose names say a unit, and marks: what is null in an answer was not recorded. */
const NUMBER_NAME = /(Ft|S|Mph|Deg)$|^(low|high|opening|openingDirect|set|gathered)$/;

/** JSON has no NaN: an unrecorded number comes as null and is made NaN again, so that the program's own words can tell it. */
function withGaps<T>(data: T): T {
  const revive = (name: string, value: unknown): unknown => {
    if (value === null) return NUMBER_NAME.test(name) ? Number.NaN : null;
    if (Array.isArray(value)) return value.map((each) => revive('', each));
    if (typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, revive(key, each)]));
  };
  return revive('', data) as T;
}

const models = new Map<SetModels['ballClass'], { readonly version: string; readonly answer: Promise<SetModels> }>();

/** The models of a class of balls of one version of the book; asked for once. Throws ServerFailure. */
export function readModels(ballClass: SetModels['ballClass'], version: string): Promise<SetModels> {
  const known = models.get(ballClass);
  if (known?.version === version) return known.answer;
  const answer = askServer<SetModelsFile>(`/api/models/${ballClass}`).then(fromSetModelsFile);
  models.set(ballClass, { version, answer });
  answer.catch(() => models.delete(ballClass));
  return answer;
}
