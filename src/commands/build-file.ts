import { type AirModelsFile, fromAirModelsFile, toAirModelsFile } from '../chances/air/air-models-file.ts';
import type { DrawSettings } from '../chances/even-draws.ts';
import {
  fromGrounderModelsFile,
  type GrounderModelsFile,
  toGrounderModelsFile,
} from '../chances/grounder-models-file.ts';
import type { RatingModels } from '../chances/rating-models.ts';
import { fromRatingModelsFile, type RatingModelsFile, toRatingModelsFile } from '../chances/rating-models-file.ts';
import { fromTurnModelFile, type TurnModelFile, toTurnModelFile } from '../chances/turn-model-file.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { BalanceGroup } from '../ledger/balance.ts';
import { fromHitModelFile, type HitModelFile, toHitModelFile } from '../ledger/runs/hit-model-file.ts';
import { fromRunValuesFile, type RunValuesFile, toRunValuesFile } from '../ledger/runs/run-values-file.ts';
import type { SkillsFile } from '../ratings/skills.ts';
import type { BookModels } from './score-book.ts';

const MODEL_FILE = 'models.json';
/** Apart from the others, because only an update asks for it. */
const RATINGS_FILE = 'rating-models.json';
/** Goes up by 1 whenever a model gains, loses or changes a term, or its rows another order, so that models of another kind are never asked. */
const FORMAT = 4;

/** What a build leaves beside its tables so that one play can be taken apart, and new plays scored, the same to the last bit. */
export interface BuildFile {
  readonly models: BookModels;
  readonly groups: readonly BalanceGroup[];
  readonly draws: DrawSettings;
  /** Everybody's shifts as of the end of the last season; readSkills answers questions from it. */
  readonly skills: SkillsFile | null;
}

interface StoredBuild {
  readonly format: number;
  readonly grounders: GrounderModelsFile | null;
  readonly turn: TurnModelFile | null;
  readonly air: AirModelsFile | null;
  readonly values: RunValuesFile;
  readonly hits: HitModelFile | null;
  readonly groups: readonly BalanceGroup[];
  readonly draws: DrawSettings;
  readonly skills: SkillsFile | null;
}

interface StoredRatingModels extends RatingModelsFile {
  readonly format: number;
}

/** Model files of a build, by name. */
export function packBuild(
  { models, groups, draws, skills }: BuildFile,
  forRatings: RatingModels,
): Record<string, Uint8Array> {
  const { grounders, turn, air, values, hits } = models;
  const stored: StoredBuild = {
    format: FORMAT,
    grounders: grounders && toGrounderModelsFile(grounders),
    turn: turn && toTurnModelFile(turn),
    air: air && toAirModelsFile(air),
    values: toRunValuesFile(values),
    hits: hits && toHitModelFile(hits),
    groups,
    draws: { draws: draws.draws, window: draws.window, seed: draws.seed },
    skills,
  };
  const ratings: StoredRatingModels = { format: FORMAT, ...toRatingModelsFile(forRatings) };
  return { [MODEL_FILE]: toBytes(stored), [RATINGS_FILE]: toBytes(ratings) };
}

function toBytes(stored: StoredBuild | StoredRatingModels): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(stored));
}

/** Gives the bytes of a model file by its name. */
type ReadFile = (name: string) => Promise<Uint8Array>;

/**
 * Reads what `packBuild` wrote, but for what ratings ask.
 * @throws ExpectedFailure `book`: the models are damaged, or were made by another release
 */
export function unpackBuild(read: ReadFile): Promise<BuildFile> {
  return unpackFile(read, MODEL_FILE, unpackModels);
}

/** Reads what ratings ask. Throws like unpackBuild. */
export function unpackRatingModels(read: ReadFile): Promise<RatingModels> {
  return unpackFile<StoredRatingModels, RatingModels>(read, RATINGS_FILE, fromRatingModelsFile);
}

async function unpackFile<Stored extends { readonly format: number }, Content>(
  read: ReadFile,
  name: string,
  unpack: (stored: Stored) => Content,
): Promise<Content> {
  const stored: Stored = JSON.parse(new TextDecoder().decode(await read(name)));
  try {
    if (stored.format !== FORMAT)
      throw new RangeError(`their format is ${stored.format ?? 'not told'}, and ${FORMAT} is wanted`);
    return unpack(stored);
  } catch (thrown) {
    if (!(thrown instanceof RangeError)) throw thrown;
    throw new ExpectedFailure(
      'book',
      `The models of the book cannot be used: ${thrown.message}.`,
      'They are damaged, or another release made them. Build the book again: leatherbook build',
      {},
      { cause: thrown },
    );
  }
}

function unpackModels({ grounders, turn, air, values, hits, groups, draws, skills }: StoredBuild): BuildFile {
  return {
    models: {
      grounders: grounders && fromGrounderModelsFile(grounders),
      turn: turn && fromTurnModelFile(turn),
      air: air && fromAirModelsFile(air),
      values: fromRunValuesFile(values),
      hits: hits && fromHitModelFile(hits),
    },
    groups,
    draws,
    skills,
  };
}
