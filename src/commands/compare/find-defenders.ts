import type { Store } from '../../book/store.ts';
import { ExpectedFailure } from '../../expected-failure.ts';

export interface Defender {
  readonly id: string;
  /** null where the book has none. */
  readonly name: string | null;
}

const MOST_NAMED = 8;

/**
 * The defenders whom some words name: by id, else by whole name, else by any part of it, in any case of letters.
 * @throws ExpectedFailure `usage`: nobody, more than one, or the same man twice
 */
export async function findDefenders(store: Store, words: readonly string[]): Promise<Defender[]> {
  const rows = await store.rows(
    'SELECT DISTINCT fielder_id AS id, name FROM careers WHERE fielder_id IS NOT NULL ORDER BY name, id',
  );
  const all = rows.map(({ id, name }): Defender => ({ id: String(id), name: name === null ? null : String(name) }));
  const found = words.map((word) => findOne(all, word));
  found.forEach((defender, k) => {
    if (found.indexOf(defender) === k) return;
    throw new ExpectedFailure(
      'usage',
      `${labelOf(defender)} is named twice, by "${words[found.indexOf(defender)]}" and "${words[k]}".`,
      'Name different defenders.',
    );
  });
  return found;
}

function findOne(all: readonly Defender[], word: string): Defender {
  const asked = word.trim().toLocaleLowerCase();
  const nameOf = ({ name }: Defender) => (name ?? '').toLocaleLowerCase();
  const readings = [
    all.filter(({ id }) => id === word.trim()),
    all.filter((defender) => nameOf(defender) === asked),
    all.filter((defender) => nameOf(defender).includes(asked)),
  ];
  const matches = asked === '' ? [] : (readings.find((reading) => reading.length > 0) ?? []);
  if (matches.length === 1) return matches[0]!;
  if (matches.length === 0) {
    throw new ExpectedFailure(
      'usage',
      `No defender of this book has the id or a name with "${word}".`,
      'Table careers lists everybody: leatherbook table fielders --career.',
    );
  }
  const named = matches.slice(0, MOST_NAMED).map(labelOf).join(', ');
  const more = matches.length > MOST_NAMED ? ` and ${matches.length - MOST_NAMED} more` : '';
  throw new ExpectedFailure(
    'usage',
    `"${word}" may be any of ${matches.length} defenders: ${named}${more}.`,
    'Give the id, or more of the name.',
  );
}

function labelOf({ id, name }: Defender): string {
  return name === null ? id : `${name} (${id})`;
}
