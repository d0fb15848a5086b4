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
import { type Progress, simulate } from "./simulate.js";

export interface Flight {
  readonly sweep: Read<Sweep>;
  readonly model: Read<Airframe>;
  readonly plan: Plan;
}

export interface FlyOptions {
  readonly workers: number;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

/** Simulates the flight; the map says by which command it can be made again. */
export async function flownMap({ sweep, model, plan }: Flight, options: FlyOptions): Promise<StabilityMap> {
  const files = { sweep: sweep.document.file, model: model.document.file };
  const command = shellLine(["gainscape", "sweep", files.sweep, "--model", files.model]);
  const provenance = { productVersion: version(), command, ...files };
  return (await simulate(plan, { ...options, provenance })).map;
}

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
