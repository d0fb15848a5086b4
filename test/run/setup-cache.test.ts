import { describe, expect, it } from "vitest";
import { setupCache } from "../../src/run/setup-cache.js";
import { tinyPlan } from "./tiny-plan.js";

const plan = tinyPlan();
const sizes = [0, 1, 2].map((index) => setupCache(plan)(index).rig.drive.values.byteLength);

describe("cached trial setups", () => {
  it("are the same again while there is room", () => {
    const rigs = setupCache(plan);
    const first = rigs(0);
    rigs(1);
    expect(rigs(0)).toBe(first);
  });

  it("are evicted in the order in which they were last used, never the one in use", () => {
    const rigs = setupCache(plan, sizes[0] + Math.max(sizes[1], sizes[2]));
    const [first, second] = [rigs(0), rigs(1)];
    expect(rigs(0)).toBe(first);
    rigs(2);
    expect(rigs(0)).toBe(first);
    expect(rigs(1)).not.toBe(second);
    const none = setupCache(plan, 0);
    expect(none(0)).toBe(none(0));
  });

  it("are of variants the plan has", () => {
    expect(() => setupCache(plan)(plan.variants.length)).toThrow(new RangeError(`no variant ${plan.variants.length}`));
  });
});
