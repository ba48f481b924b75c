/**
 * From a man being moved to the drawing that shows him: the browser's performance entry `move-drawn`, for whoever measures it.
 */
export function moveAsked(): void {
  performance.mark('move-asked');
}

/** Ends what `moveAsked` began, if anything: to be called once the drawing is up to date. */
export function moveDrawn(): void {
  if (performance.getEntriesByName('move-asked').length === 0) return;
  performance.measure('move-drawn', 'move-asked');
  performance.clearMarks('move-asked');
}
