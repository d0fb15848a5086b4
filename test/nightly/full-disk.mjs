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
      const told = await expectCode(3, process.execPath, [MAIN, ...words, "--no-cache", "--out", join(disk, "out")]);
      if (!/^incomplete: .* could not be written \(ENOSPC\)\n$/.test(told)) throw new Error(told);
      const left = readdirSync(join(disk, "out")).filter((file) => file.endsWith(".part"));
      if (left.length > 0) throw new Error(`left behind: ${left}`);
      const kept = await run([...words, "--cache", join(disk, "cache"), "--out", join(home, "out")]);
      if (!/^cache: .* could not be written \(ENOSPC\); this run goes on/.test(kept)) throw new Error(kept);
      return "ends with 3 and no part of a file; a full cache costs a line";
    } finally {
      execFileSync("umount", [disk], { timeout: 10_000 });
    }
  });
