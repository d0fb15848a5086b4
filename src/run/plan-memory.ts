// What all threads of a run share of a plan: noise and drives of its variants.
import type { TrialPlan } from "../plan/plan.js";
import { memoryForDrives, type SharedDrives, sharedDrives } from "./shared-drives.js";
import { memoryForNoise, type SharedNoise, sharedNoise } from "./shared-noise.js";

export interface PlanMemory {
  readonly noise: SharedArrayBuffer;
  readonly drives: SharedArrayBuffer;
}

/** Under the plan's own seed. */
export interface SharedSetups {
  readonly noise: SharedNoise;
  readonly drives: SharedDrives;
}

const memories = new WeakMap<TrialPlan, PlanMemory>();

/** The memory of this plan that all who ask in this thread share. */
export function planMemory(plan: TrialPlan): PlanMemory {
  const memory = memories.get(plan) ?? { noise: memoryForNoise(plan), drives: memoryForDrives(plan) };
  memories.set(plan, memory);
  return memory;
}

/** Noise and drives in the memory made for this plan, here or, for a copy of it, in another thread. */
export const sharedSetups = (plan: TrialPlan, memory: PlanMemory = planMemory(plan)): SharedSetups => ({
  noise: sharedNoise(plan, memory.noise),
  drives: sharedDrives(plan, memory.drives),
});
