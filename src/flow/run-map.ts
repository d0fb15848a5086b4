// The map of a sweep flown by a model: the one on disk where it answers the same plan, else a new one.
import type { Airframe } from "../airframe/airframe.js";
import { InputError } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { version } from "../base/version.js";
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";
import type { Sweep } from "../sweep/sweep.js";
import type { Read } from "./read.js";
import { readMap } from "./read-map.js";
import type { RunnerChoice } from "./runner.js";
import { type Progress, simulate } from "./simulate.js";

export interface Flight {
  readonly sweep: Read<Sweep>;
  readonly model: Read<Airframe>;
  readonly plan: Plan;
}

export interface FlyOptions extends RunnerChoice {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

/**
 * Simulates the flight; the map says by which command it can be made again: only what decides the map, so that it is
 * the same file whatever folder, workers, cache or shards it was made with.
 */
export function fly({ sweep, model, plan }: Flight, options: FlyOptions): ReturnType<typeof simulate> {
  const files = { sweep: sweep.document.file, model: model.document.file };
  const command = shellLine(["gainscape", "sweep", files.sweep, "--model", files.model]);
  return simulate(plan, { ...options, provenance: { productVersion: version(), command, ...files } });
}

export const flownMap = async (flight: Flight, options: FlyOptions): Promise<StabilityMap> =>
  (await fly(flight, options)).map;

/** The map in a folder, if it answers this plan and was made by this version; else null. */
export function keptMap(plan: Plan, folder: string): StabilityMap | null {
  try {
    const map = readMap(folder);
    const same = planOf(map).digest === plan.digests.plan && map.product.version === version();
    // Gates may have changed since: they are no part of the plan.
    return same ? { ...map, plan: { ...planOf(map), sweep: plan.sweep } } : null;
  } catch (error) {
    if (error instanceof InputError) return null; // absent, cut short or foreign: as good as missing
    throw error;
  }
}
