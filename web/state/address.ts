/** Where the reader is: words of the path and the view's filters, both kept in the address bar. */
export interface Place {
  /** Decoded words, such as `['defenders', 'p-017']`; empty on the first page. */
  readonly path: readonly string[];
  /** In the order of the address; a word without a value is left out. */
  readonly filters: ReadonlyMap<string, string>;
}

/** Reads the address `url` (path and query; anything else is ignored). A word that cannot be decoded stays as it is. */
export function readPlace(url: string): Place {
  const [beforeHash = ''] = url.split('#');
  const cut = beforeHash.indexOf('?');
  const pathText = cut < 0 ? beforeHash : beforeHash.slice(0, cut);
  const path = pathText.split('/').filter(Boolean).map(decoded);
  const filters = new Map(
    [...new URLSearchParams(cut < 0 ? '' : beforeHash.slice(cut))].filter(([, value]) => value !== ''),
  );
  return { path, filters };
}

function decoded(word: string): string {
  try {
    return decodeURIComponent(word);
  } catch {
    return word;
  }
}

export type Filters = Readonly<Record<string, string | number | undefined>>;

/** The address of a place; what readPlace reads back. Filters without a value are left out. */
export function addressOf(path: readonly string[], filters: Filters = {}): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(filters)) {
    if (value !== undefined && value !== '') query.set(name, String(value));
  }
  const text = query.toString();
  return `/${path.map(encodeURIComponent).join('/')}${text === '' ? '' : `?${text}`}`;
}

/** The address of the same place with some filters changed; undefined takes one out. */
export function changedAddress(place: Place, changes: Filters): string {
  return addressOf(place.path, { ...Object.fromEntries(place.filters), ...changes });
}
