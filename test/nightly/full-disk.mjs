// A disk that is really full, where this machine lets one be mounted.
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expectCode, inFolder, MAIN, NIGHTLY, run } from "./command.mjs";

export const step = () =>
  inFolder(async (home) => {
    const disk = join(home, "disk");
    mkdirSync(disk);
    try {
      execFileSync("mount", ["-t", "tmpfs", "-o", "size=128k", "tmpfs", disk], { stdio: "ignore", timeout: 10_000 });
    } catch {
      return "skipped, nothing can be mounted here; npm test has the limit on a file's size";
    }
    try {
      const words = ["sweep", NIGHTLY, "--quiet"];
      const output = await expectCode(2, process.execPath, [MAIN, ...words, "--no-cache", "--out", join(disk, "out")]);
      if (!/: cannot be written into: 0\.1 MiB are free, the files take about /.test(output)) throw new Error(output);
      if (readdirSync(disk).length > 0) throw new Error(`left behind: ${readdirSync(disk)}`);
      const warning = await run([...words, "--cache", join(disk, "cache"), "--out", join(home, "out")]);
      if (!/^cache: .* could not be written \(ENOSPC\); this run goes on/.test(warning)) throw new Error(warning);
      return "refused with 2 before the work; a full cache costs a line";
    } finally {
      execFileSync("umount", [disk], { timeout: 10_000 });
    }
  });
