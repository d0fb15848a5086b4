// gainscape merge: puts the shards of one command together and completes the command.
import { at } from "../base/at.js";
import { gatePairs } from "../flow/gate.js";
import { gatherShards, shardCache } from "../flow/shards.js";
import { GATE_OUT, inGateFolder, judgePairs } from "./gate.js";
import type { RecordingOptions } from "./recording.js";
import type { SimulatingOptions } from "./simulating.js";
import { finishSweep, sweepRequest } from "./sweep.js";

export interface MergeOptions extends SimulatingOptions, RecordingOptions {
  readonly out?: string;
  readonly unsealed?: boolean;
}

export function mergeCommand(folders: readonly string[], options: MergeOptions): Promise<number> {
  const shards = gatherShards(folders);
  const { command } = at(shards, 0).head;
  if (command.name === "sweep") {
    const request = sweepRequest(command.sweep, command.model);
    return finishSweep(request, { ...options, shardTrials: shardCache(shards, [request.plan]) });
  }
  const { sweeps, baselines } = command;
  return inGateFolder(options.out ?? GATE_OUT, () => {
    const pairs = gatePairs(sweeps, baselines, options);
    const shardTrials = shardCache(
      shards,
      pairs.map(({ plan }) => plan),
    );
    return judgePairs(pairs, sweeps, { ...options, baselines, shardTrials });
  });
}
