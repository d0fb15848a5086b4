// Writes what the code says into the documents, between their marks: npm run docs
import { spawnSync } from "node:child_process";

const { status } = spawnSync(
  "npx",
  ["vitest", "run", "--config", "test/vitest.config.ts", "test/documents/generated.test.ts"],
  { stdio: "inherit", shell: process.platform === "win32", env: { ...process.env, GAINSCAPE_DOCS: "write" } },
);
process.exitCode = status ?? 1;
