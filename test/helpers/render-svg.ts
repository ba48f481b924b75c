/// <reference types="svelte" />
import type { Component } from 'svelte';
import { render } from 'svelte/server';

/**
 * The drawing that a component makes without a browser, one element a line: its first `svg`, without the marks that tie it
 * to a page.
 */
export function renderSvg<Props extends Record<string, unknown>>(component: Component<Props>, props: Props): string {
  const { body } = render(component as Component<Record<string, unknown>>, { props });
  const svg = /<svg[\s\S]*<\/svg>/.exec(body)?.[0] ?? '';
  return `${svg
    .replace(/<!--.*?-->/gs, '')
    .replace(/ class="[^"]*"/g, '')
    .replace(/></g, '>\n<')}\n`;
}
