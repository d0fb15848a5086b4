// Writes the tables of checks into README.md and test/trust/checks.md: node test/trust/write.mjs
import { spawnSync } from "node:child_process";

const { status } = spawnSync(
  "npx",
  ["vitest", "run", "--config", "test/vitest.config.ts", "test/trust/trust.test.ts"],
  {
    stdio: "inherit",
    shell: process.platform === "win32",
    env: { ...process.env, GAINSCAPE_WRITE_TRUST: "1" },
  },
);
process.exitCode = status ?? 1;
