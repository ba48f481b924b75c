import type { Context, Hono } from 'hono';
import { renderCsv } from '../../commands/table/render-csv.ts';
import { TABLE_NAMES } from '../../commands/table/table-query.ts';
import type { TableAnswer } from '../answers.ts';
import { columnsAsJson } from '../column-json.ts';
import { rowsAsked } from '../rows-asked.ts';
import type { Workbench } from '../workbench.ts';

/**
 * Tables by name, and plays that were looked for: windows of rows as JSON, all rows as a download, a window as tab-separated
 * text for the clipboard.
 */
export function addTableRoutes(app: Hono, { source }: Workbench): void {
  app.get('/api/tables', (context) => context.json(TABLE_NAMES));

  app.get('/api/table/:name', async (context) => {
    const { name, cells, query, version, store } = await ask(context);
    const [counted] = await store.rows(query.countSql);
    const rows = await store.query(query.rowsSql(cells.columns, cells.count, cells));
    return context.json<TableAnswer>({
      name,
      version,
      row_count: Number(counted?.n),
      from: cells.from,
      columns: columnsAsJson(rows),
    });
  });

  app.get('/api/download/:name', async (context) => {
    const { name, cells, query, store } = await ask(context);
    const rows = await store.query(query.rowsSql(cells.columns, undefined, { sort: cells.sort }));
    context.header('Content-Type', 'text/csv; charset=utf-8');
    context.header('Content-Disposition', `attachment; filename="${name}.csv"`);
    return context.body(inPieces(renderCsv(rows)));
  });

  app.get('/api/clipboard/:name', async (context) => {
    const { cells, query, store } = await ask(context);
    const rows = await store.query(query.rowsSql(cells.columns, cells.count, cells));
    return context.text([...renderCsv(rows, '\t')].join(''));
  });

  async function ask(context: Context) {
    const name = context.req.param('name') ?? '';
    const { query, cells, tables, prepare } = rowsAsked(name, context.req.query());
    const copy = await source.current();
    const store = await copy.tables(...tables);
    if (prepare !== undefined) await copy.cached(`prepared ${name}`, () => prepare(store));
    return { name, query, cells, version: copy.version, store };
  }
}

/** A long text as a stream, so that it is not in memory twice. */
function inPieces(chunks: Iterable<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const iterator = chunks[Symbol.iterator]();
  return new ReadableStream({
    pull(controller) {
      const { done, value } = iterator.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
  });
}
