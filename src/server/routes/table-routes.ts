import type { Context, Hono } from 'hono';
import { renderCsv } from '../../commands/table/render-csv.ts';
import { checkTableName, TABLE_NAMES, type TableName, tableQuery } from '../../commands/table/table-query.ts';
import type { TableAnswer } from '../answers.ts';
import type { BookCopy } from '../book-copy.ts';
import { columnsAsJson } from '../column-json.ts';
import { readQuestion } from '../table-question.ts';
import type { Workbench } from '../workbench.ts';

/** Tables by name: windows of rows as JSON, all rows as a download, a window as tab-separated text for the clipboard. */
export function addTableRoutes(app: Hono, { source }: Workbench): void {
  app.get('/api/tables', (context) => context.json(TABLE_NAMES));

  app.get('/api/table/:name', async (context) => {
    const { name, question, query, copy } = await ask(context);
    const store = await copy.tables(name);
    const [counted] = await store.rows(query.countSql);
    const rows = await store.query(query.rowsSql(question.columns, question.count, question));
    return context.json<TableAnswer>({
      name,
      version: copy.version,
      row_count: Number(counted?.n),
      from: question.from,
      columns: columnsAsJson(rows),
    });
  });

  app.get('/api/download/:name', async (context) => {
    const { name, question, query, copy } = await ask(context);
    const store = await copy.tables(name);
    const rows = await store.query(query.rowsSql(question.columns, undefined, { sort: question.sort }));
    context.header('Content-Type', 'text/csv; charset=utf-8');
    context.header('Content-Disposition', `attachment; filename="${name}.csv"`);
    return context.body(inPieces(renderCsv(rows)));
  });

  app.get('/api/clipboard/:name', async (context) => {
    const { name, question, query, copy } = await ask(context);
    const store = await copy.tables(name);
    const rows = await store.query(query.rowsSql(question.columns, question.count, question));
    return context.text([...renderCsv(rows, '\t')].join(''));
  });

  async function ask(context: Context) {
    const name: TableName = checkTableName(context.req.param('name') ?? '');
    const question = readQuestion(name, context.req.query());
    const copy: BookCopy = await source.current();
    return { name, question, query: tableQuery(name, question.filters, question.conditions), copy };
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
