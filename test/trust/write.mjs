// Writes the tables of checks into README.md and test/trust/checks.md, and what Octave finds where it is installed:
// node test/trust/write.mjs
import { spawnSync } from "node:child_process";

// One after the other: both write checks.md.
for (const file of ["test/octave/octave.test.ts", "test/trust/trust.test.ts"]) {
  const { status } = spawnSync("npx", ["vitest", "run", "--config", "test/vitest.config.ts", file], {
    stdio: "inherit",
    shell: process.platform === "win32",
    env: { ...process.env, GAINSCAPE_WRITE_TRUST: "1" },
  });
  if (status !== 0) process.exitCode = status ?? 1;
}
