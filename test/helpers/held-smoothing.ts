import type { FitChoices } from '../../src/chances/fit-chance.ts';
import { type Term, termMargins } from '../../src/models/terms.ts';

/** Neither rough nor stiff. */
const HELD = 10;

/** Fits with their smoothing held: soon done, and as good as any where the laws of the ledger are asked for, which hold for all models. */
export function heldSmoothing(): FitChoices {
  const penalties = new Map<string, number>();
  return {
    terms: (name, own) => {
      penalties.set(
        name,
        own.reduce((sum, term) => sum + penaltiesOf(term), 0),
      );
      return own;
    },
    smoothing: (name) => new Array<number>(penalties.get(name)!).fill(HELD),
  };
}

function penaltiesOf(term: Term): number {
  return term.kind === 'random' ? 1 : termMargins(term).length;
}
