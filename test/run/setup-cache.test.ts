import { describe, expect, it } from "vitest";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { noiseKey } from "../../src/kernel/noise.js";
import { setupCache } from "../../src/run/setup-cache.js";
import { tinyPlan } from "./tiny-plan.js";

const plan = tinyPlan();
const sizes = [0, 1, 2].map((index) => setupCache(plan)(index).rig.drive.values.byteLength);

const bitsOf = (values: Float64Array) => Buffer.from(values.buffer, values.byteOffset, values.byteLength);

describe("cached trial setups", () => {
  it("are the same again while there is room", () => {
    const rigs = setupCache(plan);
    const first = rigs(0);
    rigs(1);
    expect(rigs(0)).toBe(first);
  });

  it("are evicted in the order in which they were last used, never the one in use", () => {
    const rigs = setupCache(plan, { room: sizes[0] + Math.max(sizes[1], sizes[2]) });
    const [first, second] = [rigs(0), rigs(1)];
    expect(rigs(0)).toBe(first);
    rigs(2);
    expect(rigs(0)).toBe(first);
    expect(rigs(1)).not.toBe(second);
    const none = setupCache(plan, { room: 0 });
    expect(none(0)).toBe(none(0));
  });

  it("have the same bits whether noise and wash are drawn for them or taken from a variant that meets the same", () => {
    const shipped = planFor(readAirframe("models/sandpiper-r1.yaml"), readSweep("sweeps/first-tune.yaml"));
    // Both axes of every script, at one level of one pack.
    const { throttle, condition } = shipped.variants[0];
    const some = shipped.variants.filter((one) => one.throttle === throttle && one.condition === condition);
    const setups = setupCache(shipped);
    let shared = 0;
    for (const { index } of some) {
      const [one, other] = [setups(index).rig, setupCache(shipped)(index).rig];
      expect(Buffer.compare(bitsOf(one.drive.values), bitsOf(other.drive.values))).toBe(0);
      expect(one.drive.disturbed).toEqual(other.drive.disturbed);
      shared += some.filter((one) => one.index < index && noiseKey(one) === noiseKey(shipped.variants[index])).length;
    }
    expect(shared).toBeGreaterThan(some.length / 3);
    const noisy = some.findIndex(({ script }) => script.noise);
    const [one, other] = [shipped.sweep.seed, shipped.sweep.seed + 1].map(
      (seed) => setups(some[noisy].index, seed).rig,
    );
    expect(Buffer.compare(bitsOf(one.drive.values), bitsOf(other.drive.values))).not.toBe(0);
  });

  it("are of variants the plan has", () => {
    expect(() => setupCache(plan)(plan.variants.length)).toThrow(new RangeError(`no variant ${plan.variants.length}`));
  });
});
