// gainscape merge: puts the shards of one command together and completes the command.
import { at } from "../base/at.js";
import { InputError } from "../base/problem.js";
import type { TrialCache } from "../flow/cache.js";
import { drawsOfShares, gatherDraws } from "../flow/draw-shares.js";
import { gatePairs } from "../flow/gate.js";
import { sweepRequest } from "../flow/run-map.js";
import type { Shard } from "../flow/shard-file.js";
import { changedBaselines, gatherShards, shardCache, sharedCommandIn } from "../flow/shards.js";
import type { SharedCommand } from "../flow/share-file.js";
import type { Plan } from "../plan/plan.js";
import { finishSweep } from "./finish-sweep.js";
import { GATE_OUT, inGateFolder, judgePairs } from "./gate.js";
import type { RecordingOptions } from "./recording.js";
import type { SimulatingOptions } from "./simulating.js";
import { inSweepFolder } from "./sweep-folder.js";

export interface MergeOptions extends SimulatingOptions, RecordingOptions {
  readonly out?: string;
  readonly unsealed?: boolean;
}

export async function mergeCommand(folders: readonly string[], options: MergeOptions): Promise<number> {
  const shards = await shardsOf(folders, options);
  const { command } = at(shards, 0).head;
  if (command.name === "gate")
    return inGateFolder(options.out ?? GATE_OUT, () => judgePairs(...mergedPairs(shards, folders, command, options)));
  const request = sweepRequest(command.sweep, command.model, command.set);
  const shardTrials = mergedCache(shards, folders, [request.plan]);
  return inSweepFolder(request, options, (place) => finishSweep(request, place, { ...options, shardTrials }));
}

/** Where a gate's share is missing, an earlier night's files must not be read as this one's result. */
async function shardsOf(folders: readonly string[], { out = GATE_OUT }: MergeOptions): Promise<Shard[]> {
  try {
    return gatherShards(folders);
  } catch (error) {
    if (error instanceof InputError && sharedCommandIn(folders)?.name === "gate")
      await inGateFolder(out, () => Promise.reject(error));
    throw error;
  }
}

/** Trials of every grid, and of the draws what they came to where they were shared out as well. */
const mergedCache = (shards: readonly Shard[], folders: readonly string[], plans: readonly Plan[]): TrialCache => ({
  ...shardCache(shards, plans),
  draws: drawsOfShares(gatherDraws(folders), plans),
});

function mergedPairs(
  shards: readonly Shard[],
  folders: readonly string[],
  { sweeps, baselines }: Extract<SharedCommand, { name: "gate" }>,
  options: MergeOptions,
): Parameters<typeof judgePairs> {
  const pairs = gatePairs(sweeps, baselines, options);
  const plans = pairs.map(({ plan }) => plan);
  const newer = changedBaselines(
    shards,
    pairs.map(({ base }) => base.name),
  );
  const withNotes = pairs.map((pair, k) => ({
    ...pair,
    notes: newer[k] ? [...pair.notes, newerBaseline(pair.base.name)] : pair.notes,
  }));
  return [withNotes, sweeps, { ...options, baselines, shardTrials: mergedCache(shards, folders, plans) }];
}

const newerBaseline = (file: string): string =>
  `${file} was written anew after the shares were simulated: the new one is what they are compared with.`;
