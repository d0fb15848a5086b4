import { beforeEach, describe, expect, it } from "vitest";
import { noiseInto, noiseKey, noiseLength } from "../../src/kernel/noise.js";
import type { Plan } from "../../src/plan/plan.js";
import { memoryForNoise, sharedNoise } from "../../src/run/shared-noise.js";
import { tinyPlan } from "./tiny-plan.js";

const plan = tinyPlan();
const keys = [...new Set(plan.variants.map(noiseKey))];
const drawn = (index: number): Float64Array => {
  const variant = plan.variants[index];
  return noiseInto(new Float64Array(noiseLength(plan, variant)), plan, variant);
};

describe("shared noise", () => {
  /** Another thread has a copy of the plan and the same memory. */
  let copy: Plan;
  beforeEach(() => {
    copy = structuredClone(plan);
  });

  it("is what a variant's own noise is, in this thread and in another", () => {
    const memory = memoryForNoise(plan);
    for (const { index } of plan.variants) {
      expect(sharedNoise(plan, memory)(index)).toEqual(drawn(index));
      expect(sharedNoise(copy, memory)(index)).toEqual(drawn(index));
    }
  });

  it("is drawn once: what the first thread wrote is what the others read", () => {
    const memory = memoryForNoise(plan);
    const first = sharedNoise(plan, memory)(0);
    if (first === null) throw new Error("no room");
    first[0] = 12345; // never drawn
    expect(sharedNoise(copy, memory)(0)?.[0]).toBe(12345);
  });

  it("is one for variants that meet the same", () => {
    expect(keys.length).toBeLessThan(plan.variants.length);
    const noise = sharedNoise(plan, memoryForNoise(plan));
    for (const one of plan.variants) {
      const same = plan.variants.find((other) => noiseKey(other) === noiseKey(one));
      expect(noise(one.index)?.byteOffset).toBe(noise(same?.index ?? -1)?.byteOffset);
    }
  });

  it("is left to each thread where there is no room, and where the variant is not the plan's", () => {
    const room = 8 * noiseLength(plan, plan.variants[0]) + 8 * keys.length;
    const memory = memoryForNoise(plan, room);
    expect(memory.byteLength).toBeLessThanOrEqual(room);
    const found = plan.variants.map(({ index }) => sharedNoise(plan, memory, { room })(index));
    expect(found[0]).toEqual(drawn(0));
    expect(found.filter((noise) => noise === null).length).toBeGreaterThan(0);
    expect(sharedNoise(plan, memoryForNoise(plan))(plan.variants.length)).toBeNull();
  });

  it("is not waited for without an end where a thread began to draw it and is gone", () => {
    const memory = memoryForNoise(plan);
    new Int32Array(memory).fill(1, 0, keys.length); // begun
    expect(sharedNoise(plan, memory, { patience: 1 })(0)).toBeNull();
  });
});
