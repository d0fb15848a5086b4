// gainscape merge: the shards of one command put together, and the command carried on from there.
import { gatePairs } from "../flow/gate.js";
import type { Shard } from "../flow/shard-file.js";
import { gatherShards, shardCache } from "../flow/shards.js";
import { GATE_OUT, judgePairs, night } from "./gate.js";
import type { SimulatingOptions } from "./simulating.js";
import { flownSweep, sweepRequest } from "./sweep.js";

export interface MergeOptions extends SimulatingOptions {
  readonly out?: string;
  readonly unsealed?: boolean;
}

export function mergeCommand(folders: readonly string[], options: MergeOptions): Promise<number> {
  const shards = gatherShards(folders);
  const { command } = (shards[0] as Shard).head;
  if (command.name === "sweep") {
    const flight = sweepRequest(command.sweep, command.model);
    return flownSweep(flight, { ...options, known: shardCache(shards, [flight.plan]) });
  }
  const { sweeps, baselines } = command;
  return night(options.out ?? GATE_OUT, () => {
    const pairs = gatePairs(sweeps, baselines, options);
    const known = shardCache(
      shards,
      pairs.map(({ plan }) => plan),
    );
    return judgePairs(pairs, sweeps, { ...options, baselines, known });
  });
}
