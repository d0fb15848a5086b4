// --shard i/n: simulate a share of a command's grids, or with --grid of its draws, and write it, instead of completing the command.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError, printable } from "../base/problem.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { layered } from "../flow/cache.js";
import { drawsHead, simulateDraws } from "../flow/draw-shares.js";
import { choosingDraws } from "../flow/draws.js";
import { drawsName, writeDraws } from "../flow/draws-file.js";
import type { MapRequest } from "../flow/run-map.js";
import { shardName, writeShard } from "../flow/shard-file.js";
import { gatherShards, shardCache, shardHead, simulateShare } from "../flow/shards.js";
import type { SharedCommand } from "../flow/share-file.js";
import type { Share } from "../run/share.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

/** What is shared out, and where the share goes. */
interface Sharing {
  readonly command: SharedCommand;
  readonly requests: readonly Pick<MapRequest, "plan" | "model">[];
  readonly share: Share;
  readonly folder: string;
  /** Of a gate: the files its plans are compared with. */
  readonly baselines?: readonly string[];
}

export interface SharingOptions extends SimulatingOptions {
  /** The folder with every share of the grid: the draws are shared out. */
  readonly grid?: string;
}

export const shareCommand = (sharing: Sharing, options: SharingOptions): Promise<number> =>
  options.grid === undefined ? shareOfGrid(sharing, options) : shareOfDraws(sharing, options.grid, options);

async function shareOfGrid(
  { command, requests, share, folder, baselines }: Sharing,
  options: SimulatingOptions,
): Promise<number> {
  const file = join(folder, shardName(share));
  const plans = requests.map(({ plan }) => plan);
  const tasks = await withLock(file, async () => {
    forecast(plans, folder, [shardName(share)], options, { stage: "grid", share: 1 / share.of });
    const finished = await withProgress(options, (how) => simulateShare(plans, share, how));
    await unlessInterrupted(options.signal, file);
    writeShard(file, shardHead(command, plans, share, baselines), finished);
    return finished;
  });
  const trials = tasks.reduce((sum, [, { outcome }]) => sum + outcome.length, 0);
  const next = plans.some((plan) => choosingDraws(plan) > 0) ? [DRAWS_NEXT] : [];
  return done({ share, trials, file }, [`${trials} trials, ${shareWords(share)}: ${file}`, ...next], options);
}

const DRAWS_NEXT = "Draws are shared out next: with every share in one folder, the same command with --grid FOLDER.";

async function shareOfDraws(
  { command, requests, share, folder }: Sharing,
  grid: string,
  options: SimulatingOptions,
): Promise<number> {
  const file = join(folder, drawsName(share));
  const plans = requests.map(({ plan }) => plan);
  if (!plans.some((plan) => choosingDraws(plan) > 0)) throw noDraws();
  const gridTrials = shardCache(gatherShards([grid]), plans);
  const counted = await withLock(file, async () => {
    forecast(plans, folder, [drawsName(share)], options, { stage: "draws", share: 1 / share.of });
    const found = await withProgress(options, (how) =>
      simulateDraws(requests, share, { ...how, cache: layered(gridTrials, how.cache) }),
    );
    await unlessInterrupted(options.signal, file);
    writeDraws(file, drawsHead(command, plans, share), found);
    return found;
  });
  const trials = counted.reduce((sum, one) => sum + (one === null ? 0 : one.roll.trials + one.pitch.trials), 0);
  return done({ share, trials, file }, [`${trials} trials in draws, ${shareWords(share)}: ${file}`], options);
}

const noDraws = (): InputError =>
  new InputError([fileProblem("--grid", "there are no draws to share out: merge the shares of the grid")]);

const shareWords = ({ index, of }: Share): string => `share ${index} of ${of}`;

function done(
  outcome: { readonly share: Share; readonly trials: number; readonly file: string },
  lines: readonly string[],
  { json, quiet }: SimulatingOptions,
): number {
  if (json) process.stdout.write(`${canonicalJson(outcome)}\n`);
  else if (!quiet) process.stdout.write(lines.map((line) => `${printable(line)}\n`).join(""));
  return EXIT.done;
}
