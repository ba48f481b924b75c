import type { Component } from 'svelte';

/** A page of the workbench. Its component reads the rest of the path and the filters from the router. */
export interface Page {
  /** First word of its address. */
  readonly word: string;
  readonly label: string;
  readonly load: () => Promise<{ readonly default: Component }>;
}

/** In the order of the menu. Each is loaded when it is first opened. */
export const PAGES: readonly Page[] = [
  { word: 'season', label: 'Season', load: () => import('./season/season-page.svelte') },
  { word: 'defenders', label: 'Defenders', load: () => import('./defenders/defenders-page.svelte') },
  { word: 'teams', label: 'Teams', load: () => import('./teams/teams-page.svelte') },
  { word: 'plays', label: 'Plays', load: () => import('./plays/plays-page.svelte') },
  { word: 'plan', label: 'Plan', load: () => import('./plan/plan-page.svelte') },
  { word: 'trust', label: 'Trust', load: () => import('./trust/trust-page.svelte') },
];

export const FIRST_PAGE = PAGES[0]!;
