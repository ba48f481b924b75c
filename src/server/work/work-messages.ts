/** Long work that a page may start. */
export const TASKS = ['build', 'trust', 'plans'] as const;
export type Task = (typeof TASKS)[number];

/** What the process at work is told, as its only argument. */
export interface WorkOrder {
  readonly task: Task;
  readonly book: string;
  /** The club in the field, for plans. */
  readonly defence?: string;
}

/** What it tells. */
export type WorkMessage =
  | { readonly type: 'stage'; readonly label: string; readonly total: number }
  | { readonly type: 'advance'; readonly done: number }
  | { readonly type: 'done'; readonly result: unknown }
  | { readonly type: 'failed'; readonly message: string; readonly remedy: string };
