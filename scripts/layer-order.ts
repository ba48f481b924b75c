/**
 * The one list of layers, lowest first: the way a batted ball goes. A file may import from its own folder and from
 * folders to the left of it.
 */
export const LAYERS = [
  'diamond',
  'numeric',
  'splines',
  'models',
  'chances',
  'ledger',
  'ratings',
  'plans',
  'league',
  'book',
  'intake',
  'jobs',
  'commands',
  'server',
  'cli',
] as const;

/** Files that every layer may import and that import nothing. */
export const SHARED_FILES = ['src/csv-text.ts', 'src/expected-failure.ts', 'src/progress.ts'] as const;

/**
 * The layers that the pages may use at run time: arithmetic that runs in a browser too. Of the others they know types only.
 * Nothing under src imports from the pages.
 */
export const BROWSER_LAYERS = [
  'diamond',
  'numeric',
  'splines',
  'models',
  'chances',
  'ledger',
  'ratings',
  'plans',
] as const;

/** The only file that may import the database. */
export const DATABASE_CONNECTOR = 'src/book/duckdb-store.ts';

/** The only file that may import the queue that machines share. */
export const QUEUE_CONNECTOR = 'src/jobs/postgres-queue.ts';
