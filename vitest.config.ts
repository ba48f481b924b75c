import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const TIMES = { testTimeout: 60_000, hookTimeout: 180_000 };

/** The files that take longest, of which their size tells nothing: the longest first. At the end they would keep one core waiting. */
const LONGEST = [
  ...['docs/guide-walk', 'commands/build.test', 'commands/plan-many', 'commands/build-runs', 'commands/demo.test'],
  ...['commands/trust.test', 'plans/solve-plan', 'commands/update', 'commands/totals', 'commands/intake'],
  ...['commands/rough-build', 'rate-on-threads', 'commands/explain', 'ledger/grades', 'jobs/queue-jobs'],
  ...['e2e/plays', 'e2e/every-page', 'e2e/work', 'e2e/plan', 'e2e/frame', 'e2e/own-pages', 'e2e/long-table'],
];

/** By project, pages last: a process serves the files of one project, and the demo book of the pages is being made meanwhile. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ project, moduleId }: TestSpecification) => {
      const at = LONGEST.findIndex((name) => moduleId.includes(`/${name}`));
      return (project.name === 'pages' ? LONGEST.length + 1 : 0) + (at < 0 ? LONGEST.length : at);
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
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
          globalSetup: 'test/helpers/common-folder.ts',
          // One process for many files reads the sources once, and runs what it has compiled.
          isolate: false,
          ...TIMES,
        },
      },
      // Whole leagues against their truth: two minutes by themselves, so `npm run truth` and .ci/run ask for them.
      { test: { name: 'truth', include: ['test/truth/**/*.test.ts'], ...TIMES } },
      {
        test: {
          name: 'pages',
          include: ['e2e/**/*.test.ts'],
          // A real browser on a real server: the demo book and the pages are made once for all files.
          globalSetup: 'e2e/set-up.ts',
          isolate: false,
          ...TIMES,
        },
      },
    ],
  },
});
