import { type Html, html, type Part } from './html.ts';

export interface ReportColumn<Row> {
  readonly head: Part;
  /** What the head means, for whoever rests the pointer on it or listens. */
  readonly meaning?: string;
  readonly cell: (row: Row) => Part;
  /** Text stands to the left; numbers, unless told, to the right. */
  readonly isText?: boolean;
  readonly kind?: 'placement' | 'reach' | 'finish' | 'turn';
}

/** A table with a caption, heads that name their columns, and the first cell of a row as its head. */
export function reportTable<Row>(caption: string, columns: readonly ReportColumn<Row>[], rows: readonly Row[]): Html {
  const classOf = ({ isText, kind }: ReportColumn<Row>) => [isText ? 'text' : 'number', kind ?? ''].join(' ').trim();
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table>
<caption>${caption}</caption>
<thead><tr>${columns.map((column) => html`<th scope="col" class="${classOf(column)}"${column.meaning === undefined ? null : html` title="${column.meaning}"`}>${column.head}</th>`)}</tr></thead>
<tbody>
${rows.map(
  (row) => html`<tr>${columns.map((column, at) =>
    at === 0
      ? html`<th scope="row" class="${classOf(column)}">${column.cell(row)}</th>`
      : html`<td class="${classOf(column)}">${column.cell(row)}</td>`,
  )}</tr>
`,
)}</tbody>
</table></div>
`;
}
