// gainscape merge: the shards of one command put together, and the command carried on from there.
import { gatePairs } from "../flow/gate.js";
import type { Shard } from "../flow/shard-file.js";
import { gatherShards, shardCache } from "../flow/shards.js";
import type { FlyingOptions } from "./flying.js";
import { GATE_OUT, heldPairs, night } from "./gate.js";
import { flownSweep, sweepFlight } from "./sweep.js";

export interface MergeOptions extends FlyingOptions {
  readonly out?: string;
  readonly unsealed?: boolean;
}

export function mergeCommand(folders: readonly string[], options: MergeOptions): Promise<number> {
  const shards = gatherShards(folders);
  const { command } = (shards[0] as Shard).head;
  if (command.name === "sweep") {
    const flight = sweepFlight(command.sweep, command.model);
    return flownSweep(flight, { ...options, known: shardCache(shards, [flight.plan]) });
  }
  const { sweeps, baselines } = command;
  return night(options.out ?? GATE_OUT, () => {
    const pairs = gatePairs(sweeps, baselines, options);
    const known = shardCache(
      shards,
      pairs.map(({ plan }) => plan),
    );
    return heldPairs(pairs, sweeps, { ...options, baselines, known });
  });
}
