// --shard i/n: simulate a share of a command's grids and write it as a shard, instead of completing the command.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { printable } from "../base/problem.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { type SharedCommand, shardName, writeShard } from "../flow/shard-file.js";
import { shardHead, simulateShare } from "../flow/shards.js";
import type { Plan } from "../plan/plan.js";
import type { Share } from "../run/share.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

export async function shareCommand(
  command: SharedCommand,
  plans: readonly Plan[],
  share: Share,
  folder: string,
  options: SimulatingOptions,
  baselines?: readonly string[],
): Promise<number> {
  const file = join(folder, shardName(share));
  const tasks = await withLock(file, async () => {
    forecast(plans, folder, [shardName(share)], options, 1 / share.of);
    const finished = await withProgress(options, (how) => simulateShare(plans, share, how));
    await unlessInterrupted(options.signal, file);
    writeShard(file, shardHead(command, plans, share, baselines), finished);
    return finished;
  });
  const trials = tasks.reduce((sum, [, { outcome }]) => sum + outcome.length, 0);
  if (options.json) process.stdout.write(`${canonicalJson({ share, trials, file })}\n`);
  else if (!options.quiet)
    process.stdout.write(printable(`${trials} trials, share ${share.index} of ${share.of}: ${file}`).concat("\n"));
  return EXIT.done;
}
