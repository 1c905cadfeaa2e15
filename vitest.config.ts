import { defineConfig } from 'vitest/config';

/** Tests that open ports: the serial driver works on a process's main thread only. */
const ON_PORTS = 'test/**/*.pty.test.ts';

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    globalSetup: './test/build-first.ts',
    reporters: ['default', './test/count-reporter.ts'],
    // Plain functions in plain modules: nothing leaks from file to file, and starting is five times faster.
    isolate: false,
    projects: [
      {
        extends: true,
        test: { name: 'threads', include: ['test/**/*.test.ts'], exclude: [ON_PORTS], pool: 'threads' },
      },
      { extends: true, test: { name: 'ports', include: [ON_PORTS], pool: 'forks' } },
    ],
  },
});
