import { beforeEach, describe, expect, it } from "vitest";
import { type Drive, driveOf } from "../../src/kernel/drive.js";
import { simulatedShape } from "../../src/kernel/rig.js";
import type { Plan } from "../../src/plan/plan.js";
import { planMemory, sharedSetups } from "../../src/run/plan-memory.js";
import { setupCache } from "../../src/run/setup-cache.js";
import { memoryForDrives, sharedDrives } from "../../src/run/shared-drives.js";
import { tinyPlan } from "./tiny-plan.js";

const plan = tinyPlan();
const made = (index: number): Drive => {
  const variant = plan.variants[index];
  const { craft } = plan.conditions[variant.condition];
  return driveOf(plan, variant, simulatedShape(plan, craft, variant.axis));
};
const noNoise = (): Float64Array => {
  throw new Error("the drive is there already");
};

describe("shared drives", () => {
  /** Another thread has a copy of the plan and the same memory. */
  let copy: Plan;
  beforeEach(() => {
    copy = structuredClone(plan);
  });

  it("are what a variant's own drive is, made once, in this thread and in another", () => {
    const memory = planMemory(copy);
    const { noise, drives } = sharedSetups(plan, memory);
    const ofCopy = sharedSetups(copy, memory).drives;
    for (const { index } of plan.variants) {
      const drive = drives(index, (variant) => noise(variant) ?? noNoise());
      expect(drive).toEqual(made(index));
      expect(ofCopy(index, noNoise)).toEqual(made(index));
      if (drive === null) throw new Error("no room");
      drive.values[0] = 12345; // no drive has this
      expect(ofCopy(index, noNoise)?.values[0]).toBe(12345);
    }
  });

  it("are left to each thread where there is no room, and where the variant is not the plan's", () => {
    const { noise } = sharedSetups(copy);
    const room = memoryForDrives(plan).byteLength - 8;
    const memory = memoryForDrives(plan, room);
    expect(memory.byteLength).toBeLessThanOrEqual(room);
    const drives = sharedDrives(plan, memory, { room });
    const found = plan.variants.map(({ index }) => drives(index, (variant) => noise(variant) ?? noNoise()));
    expect(found[0]).toEqual(made(0));
    expect(found.at(-1)).toBeNull();
    expect(drives(plan.variants.length, noNoise)).toBeNull();
  });

  it("are not waited for without an end where a thread began to make one and is gone", () => {
    const memory = memoryForDrives(plan);
    new Int32Array(memory).fill(1, 0, plan.variants.length); // begun
    expect(sharedDrives(plan, memory, { patience: 1 })(0, noNoise)).toBeNull();
    const setups = setupCache(plan, { shared: sharedSetups(plan) });
    expect(setups(0).rig.drive).toEqual(made(0));
  });

  it("are of the plan's own seed: another seed has a drive of its own", () => {
    const noisy = plan.variants.findIndex(({ script }) => script.noise);
    const setups = setupCache(plan, { shared: sharedSetups(plan) });
    const [own, other] = [setups(noisy), setups(noisy, plan.sweep.seed + 1)].map(({ rig }) => rig.drive.values);
    expect(own).toEqual(setupCache(plan)(noisy).rig.drive.values);
    expect(other).toEqual(setupCache(plan)(noisy, plan.sweep.seed + 1).rig.drive.values);
    expect(other).not.toEqual(own);
  });
});

describe("a plan's memory", () => {
  it("is one for all who ask in a thread", () => {
    const copy = structuredClone(plan);
    expect(planMemory(plan)).toBe(planMemory(plan));
    expect(planMemory(copy)).not.toBe(planMemory(plan));
  });
});
