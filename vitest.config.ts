import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    // Plain functions in plain modules: nothing leaks from file to file, and starting is five times faster.
    pool: 'threads',
    isolate: false,
    testTimeout: 60_000,
    reporters: ['default', './test/count-reporter.ts'],
  },
});
