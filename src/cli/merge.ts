// gainscape merge: puts the shards of one command together and completes the command.
import { at } from "../base/at.js";
import { gatePairs } from "../flow/gate.js";
import type { Shard } from "../flow/shard-file.js";
import { changedBaselines, gatherShards, shardCache, sharedCommandIn } from "../flow/shards.js";
import { GATE_OUT, inGateFolder, judgePairs } from "./gate.js";
import type { RecordingOptions } from "./recording.js";
import type { SimulatingOptions } from "./simulating.js";
import { finishSweep, sweepRequest } from "./sweep.js";

export interface MergeOptions extends SimulatingOptions, RecordingOptions {
  readonly out?: string;
  readonly unsealed?: boolean;
}

export function mergeCommand(folders: readonly string[], options: MergeOptions): Promise<number> {
  // A gate's files of an earlier night go before anything can end this one early: also before a share is missed.
  if (sharedCommandIn(folders)?.name === "gate")
    return inGateFolder(options.out ?? GATE_OUT, () => mergedGate(gatherShards(folders), options));
  const shards = gatherShards(folders);
  const { command } = at(shards, 0).head;
  if (command.name === "gate") return inGateFolder(options.out ?? GATE_OUT, () => mergedGate(shards, options));
  const request = sweepRequest(command.sweep, command.model, command.set);
  return finishSweep(request, { ...options, shardTrials: shardCache(shards, [request.plan]) });
}

function mergedGate(shards: readonly Shard[], options: MergeOptions): Promise<number> {
  const { command } = at(shards, 0).head;
  if (command.name !== "gate") throw new RangeError(`shards of ${command.name}, not of a gate`);
  const { sweeps, baselines } = command;
  const pairs = gatePairs(sweeps, baselines, options);
  const plans = pairs.map(({ plan }) => plan);
  const files = pairs.map(({ base }) => base.name);
  const changed = changedBaselines(shards, files);
  const noted = pairs.map((pair, k) => ({
    ...pair,
    notes: changed[k] ? [...pair.notes, newerBaseline(pair.base.name)] : pair.notes,
  }));
  return judgePairs(noted, sweeps, { ...options, baselines, shardTrials: shardCache(shards, plans) });
}

const newerBaseline = (file: string): string =>
  `${file} was written anew after the shares were simulated: the new one is what they are compared with.`;
