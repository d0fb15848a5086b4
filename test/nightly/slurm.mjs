// A real cluster of this one host, where Slurm is installed.
import { spawnSync } from "node:child_process";
import { expectCode, ROOT } from "./command.mjs";

export async function step() {
  if (spawnSync("slurmctld", ["-V"], { timeout: 10_000 }).error !== undefined)
    return "skipped, no Slurm here (Debian: apt-get install slurm-wlm)";
  const output = await expectCode(0, "test/slurm/on-one-host.sh", [], { cwd: ROOT, limit: 20 * 60_000 });
  return output.trim().split("\n").at(-1);
}
