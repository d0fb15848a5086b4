// Writes one line, "N passed, N failed", into the file GAINSCAPE_SUMMARY names.
import { writeFileSync } from "node:fs";
import type { Reporter, TestModule } from "vitest/node";

export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const file = process.env.GAINSCAPE_SUMMARY;
    if (file === undefined) return;
    let passed = 0;
    let failed = errors.length;
    for (const module of modules) {
      // A file that could not be loaded has no tests that could fail.
      if (module.errors().length > 0) failed++;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === "passed") passed++;
        if (state === "failed" || state === "pending") failed++;
      }
    }
    writeFileSync(file, `${passed} passed, ${failed} failed\n`);
  }
}
