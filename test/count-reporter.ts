import type { Reporter, TestModule } from 'vitest/node';

/** Prints the plain last line `N passed, N failed, N skipped` that scripts can read. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) counts[test.result().state]++;
      // A file that could not be read has no tests, but has failed all the same.
      if (module.state() === 'failed' && module.errors().length > 0) counts.failed++;
    }
    process.stdout.write(
      `${counts.passed} passed, ${counts.failed} failed, ${counts.skipped + counts.pending} skipped\n`,
    );
  }
}
