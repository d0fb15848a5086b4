// Before all tests: a folder for what several test files need and none of them changes. After them it is removed.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    /** The folder of this run of the tests. */
    shared: string;
  }
}

export default function share(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), "gainscape-shared-"));
  project.provide("shared", folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
