import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts', 'checks/**/*.test.ts'],
    // Both cores of a small machine; the default leaves one of two idle.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 180_000,
  },
});
