// A thread that ends while its code is being optimised in the background aborts Node 20: threads optimise in line.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, it } from "vitest";

it("optimises in threads in line, in the main thread beside it", () => {
  const out = mkdtempSync(join(tmpdir(), "gainscape-threads-"));
  const words = ["sweep", "test/fixtures/quick.yaml", "--out", out, "--no-cache", "--workers", "2", "--quiet"];
  try {
    const traced = execFileSync(process.execPath, ["--trace-opt", resolve("dist/cli/main.js"), ...words], {
      encoding: "utf8",
      maxBuffer: 2 ** 28,
    });
    const modes = (mode: string) => traced.split(`ConcurrencyMode::${mode}`).length - 1;
    expect(modes("kSynchronous")).toBeGreaterThan(0);
    expect(modes("kConcurrent")).toBeGreaterThan(0);
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
});
