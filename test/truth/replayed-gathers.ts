import { finishChances } from '../../src/chances/finish-model.ts';
import type { GrounderModels } from '../../src/chances/grounder-models.ts';
import type { Grounders } from '../../src/chances/grounders.ts';
import { takePlays } from '../../src/chances/take-plays.ts';
import type { Outcome } from '../../src/league/physics/situation.ts';

/** Replayed gathers of grounders, as a careful crew would have recorded them. */
export class ReplayedGathers {
  private readonly at: number[] = [];
  private readonly columns = {
    touchedBy: [] as number[],
    gatheredBy: [] as number[],
    gatherXFt: [] as number[],
    gatherYFt: [] as number[],
    gatherTimeS: [] as number[],
    throwTo: [] as number[],
  };

  /** Notes what a replay of grounder `at` came to; its number among those noted. */
  add(at: number, outcome: Outcome): number {
    this.at.push(at);
    const { columns } = this;
    columns.touchedBy.push(outcome.touchedBy);
    columns.gatheredBy.push(outcome.gatheredBy);
    columns.gatherXFt.push(round(outcome.gatherXFt, 10));
    columns.gatherYFt.push(round(outcome.gatherYFt, 10));
    columns.gatherTimeS.push(round(outcome.gatherTimeS, 100));
    columns.throwTo.push(outcome.throwTo);
    return this.at.length - 1;
  }

  /** The gathered mark G of each (method.md 3), before balancing. */
  marks(grounders: Grounders, models: GrounderModels): Float64Array {
    const { columns } = this;
    const from = grounders.row;
    const taken = takePlays(grounders, Int32Array.from(this.at));
    const table = {
      ...grounders.table,
      touchedBy: Uint8Array.from(columns.touchedBy),
      gatheredBy: Uint8Array.from(columns.gatheredBy),
      gatherXFt: Float64Array.from(columns.gatherXFt),
      gatherYFt: Float64Array.from(columns.gatherYFt),
      gatherTimeS: Float64Array.from(columns.gatherTimeS),
      throwTo: Uint8Array.from(columns.throwTo),
      bases: Uint8Array.from(this.at, (at) => grounders.table.bases[from[at]!]!),
    };
    return finishChances(models.finish, { ...taken, table, row: Int32Array.from(this.at.keys()) });
  }
}

function round(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
