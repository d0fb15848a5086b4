// The baselines under version control belong to the sweeps and models next to them. Where this fails because a sweep,
// a script or a model was changed on purpose, write the baseline again and review it: gainscape baseline SWEEP.
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planOf } from "../../src/compare/question.js";
import { baselineRequest, gatePairs } from "../../src/flow/gate.js";

const sweeps = readdirSync("sweeps")
  .filter((file) => file.endsWith(".yaml") && /^baseline:/m.test(readFileSync(`sweeps/${file}`, "utf8")))
  .map((file) => `sweeps/${file}`);

describe("a shipped baseline", () => {
  it("is there for every sweep that wants one", () => {
    expect(sweeps.length).toBeGreaterThan(2);
    expect(gatePairs(sweeps, "reports/baselines").length).toBeGreaterThanOrEqual(sweeps.length);
  });

  it.each(sweeps)("of %s was made from the model and question that are there now", (sweep) => {
    const [pair] = gatePairs([sweep], "reports/baselines");
    expect(pair?.notes).toEqual([]);
    expect(planOf(pair?.base.map as NonNullable<typeof pair>["base"]["map"]).digest).toBe(
      baselineRequest(sweep).plan.digests.plan,
    );
  });

  it.each(sweeps)("of %s has a pinned tune that is safe, so that its gate has something to check", (sweep) => {
    const [pair] = gatePairs([sweep], "reports/baselines");
    for (const axis of ["roll", "pitch"] as const) expect(pair?.base.map.axes[axis].pinned?.safe).toBe(true);
  });
});
