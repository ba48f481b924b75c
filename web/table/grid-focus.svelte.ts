import { copyText } from '../state/copy-text.ts';
import { goTo } from '../state/router.svelte.ts';
import { type CellPlace, movedBy, rangeBetween } from '../state/table/grid-keys.ts';
import { nextSort, type Row, type RowSource, type Sort } from '../state/table/row-source.ts';
import { scrollToRow } from '../state/table/virtual-window.ts';
import { copiedColumns, type TableColumn } from './table-column.ts';

/** What the focus of a table has to know of it; asked anew each time. */
export interface Grid {
  readonly columns: readonly TableColumn[];
  readonly source: RowSource;
  readonly sort: Sort | null;
  readonly onSort: (sort: Sort) => void;
  readonly measures: { readonly rowCount: number; readonly rowPx: number; readonly viewPx: number };
  readonly element: HTMLElement | undefined;
  rowAt(index: number): Row | undefined;
  /** The table was scrolled by the focus. */
  onScrolled(scrollPx: number): void;
}

/** Which cell of a table has the focus, what is selected, and what keys and clicks do there. Row -1 is the head. */
export class GridFocus {
  place = $state.raw<CellPlace>({ row: -1, column: 0 });
  #anchor = $state.raw<CellPlace | null>(null);
  /** Said to whoever has the page read to him. */
  said = $state('');
  readonly selected = $derived(this.#anchor === null ? null : rangeBetween(this.#anchor, this.place));
  readonly #grid: () => Grid;

  constructor(grid: () => Grid) {
    this.#grid = grid;
  }

  clearSelection(): void {
    this.#anchor = null;
  }

  pressed(event: KeyboardEvent): void {
    const { columns, measures } = this.#grid();
    const isFar = event.ctrlKey || event.metaKey;
    if (isFar && event.key.toLowerCase() === 'c') {
      if (getSelection()?.isCollapsed === false) return;
      event.preventDefault();
      void this.#copySelection();
      return;
    }
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      this.#activate(this.place);
      return;
    }
    const { rowCount, rowPx, viewPx } = measures;
    const pageRows = Math.max(1, Math.floor(viewPx / rowPx) - 1);
    const next = movedBy(event.key, isFar, this.place, { rowCount, columnCount: columns.length, pageRows });
    if (next === null) return;
    event.preventDefault();
    this.#goTo(next, event.shiftKey && this.place.row >= 0);
  }

  clicked(event: MouseEvent): void {
    if (!(event.target instanceof Element) || event.target.closest('a') !== null) return;
    const cell = event.target.closest<HTMLElement>('[data-column]');
    if (cell === null) return;
    const next = { row: Number(cell.dataset.row), column: Number(cell.dataset.column) };
    this.#goTo(next, event.shiftKey && this.place.row >= 0 && next.row >= 0);
    if (next.row < 0 || event.target.closest('button') !== null) this.#activate(next);
  }

  #goTo(next: CellPlace, keepsAnchor: boolean): void {
    const { element, measures, onScrolled } = this.#grid();
    if (keepsAnchor) this.#anchor ??= this.place;
    else this.#anchor = null;
    this.place = next;
    if (element !== undefined && next.row >= 0) {
      const wanted = scrollToRow(measures, next.row, element.scrollTop);
      if (wanted !== element.scrollTop) {
        element.scrollTop = wanted;
        onScrolled(element.scrollTop);
      }
    }
    requestAnimationFrame(() => {
      const cell = element?.querySelector<HTMLElement>('[data-focus="true"]');
      cell?.focus({ preventScroll: true });
      cell?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    });
  }

  /** A head sorts, a cell leads where its link does, or does what it is for. */
  #activate({ row, column }: CellPlace): void {
    const { columns, sort, onSort, rowAt } = this.#grid();
    const chosen = columns[column]!;
    if (row < 0) {
      if (chosen.canSort !== false) onSort(nextSort(sort, chosen.key, chosen.isNumber === true));
      return;
    }
    const data = rowAt(row);
    if (data === undefined) return;
    const href = chosen.href?.(data) ?? null;
    if (href !== null) goTo(href);
    else chosen.onPress?.(data);
  }

  async #copySelection(): Promise<void> {
    const { columns, source } = this.#grid();
    const cells = this.selected ?? rangeBetween(this.place, this.place);
    const names = copiedColumns(columns.slice(cells.firstColumn, cells.lastColumn + 1));
    if (cells.lastRow < 0) return;
    await copyText(source.asTabText(names, cells.firstRow, cells.lastRow + 1));
    const rows = cells.lastRow - cells.firstRow + 1;
    this.said = `Copied ${rows} ${rows === 1 ? 'row' : 'rows'} of ${names.length} ${names.length === 1 ? 'column' : 'columns'}.`;
  }
}
