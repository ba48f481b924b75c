import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const TIMES = { testTimeout: 60_000, hookTimeout: 180_000 };

/** Begins with the files that take longest, of which the size tells nothing: at the end they would keep one core waiting. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLong = ({ moduleId }: TestSpecification) =>
      /guide-walk|plan-many|e2e\/plays|e2e\/every-page/.test(moduleId);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

export default defineConfig({
  test: {
    // Both cores of a small machine; the default leaves one of two idle.
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        // Components of the pages are drawn without a browser.
        plugins: [svelte({ configFile: false, compilerOptions: { runes: true } })],
        test: {
          name: 'program',
          include: ['test/**/*.test.ts', 'checks/**/*.test.ts'],
          exclude: ['test/truth/**'],
          // One process for many files reads the sources once, and runs what it has compiled.
          isolate: false,
          ...TIMES,
        },
      },
      // Whole leagues against their truth: two minutes by themselves, so `npm run truth` and .ci/run ask for them.
      { test: { name: 'truth', include: ['test/truth/**/*.test.ts'], ...TIMES } },
      // A real browser on a real server: the demo book and the pages are made once for all files.
      { test: { name: 'pages', include: ['e2e/**/*.test.ts'], globalSetup: 'e2e/set-up.ts', ...TIMES } },
    ],
  },
});
