import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: folder('./'),
  plugins: [svelte({ configFile: false, compilerOptions: { runes: true } })],
  build: {
    outDir: folder('../dist/web/'),
    emptyOutDir: true,
    // What each page loads, for the limit on its size.
    manifest: true,
    target: 'es2022',
    // A file written into the page as an address of its own would need a wider security policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      onLog(level, log) {
        // How long a plugin took on a busy machine is no fault of the pages.
        if (level === 'warn' && !log.code?.endsWith('_TIMINGS')) throw new Error(log.message);
      },
    },
  },
});
