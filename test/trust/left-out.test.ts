// The sizes README gives of what is not modelled, where theory or a check of ours can tell them.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { D_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { WASH } from "./checks/wash.js";

const readme = readFileSync("README.md", "utf8");
const stated = (pattern: RegExp): number => Number(pattern.exec(readme)?.[1] ?? Number.NaN);

// Roll at the shipped starting tune's D, where it gives out first: 70 % throttle on a fresh pack.
const plan = planFor(readAirframe("models/sandpiper-r1.yaml"), readSweep("sweeps/first-tune.yaml"));
const variant = plan.variants.find(
  ({ axis, throttle, condition }) => axis === "roll" && throttle === 0.7 && condition === 0,
);
if (variant === undefined) throw new Error("the sweep has no roll at 70 %");
const holding = { ...plan.holding, yaw: plan.airframe.controller.yaw };
const [{ condition, craft }] = plan.conditions;
const d = 1.05 * D_UNIT;
const pieces = axisPieces(craft, variant.trim, "roll", holding);
const [{ p }] = ultimateGain(pieces, d, plan.airframe.controller.roll.i, { from: 0, to: 10 }).filter(
  (one) => one.perGrowth > 0,
);
const effect = async (key: string, share: number) => {
  const place = { airframe: plan.airframe, around: condition, throttle: 0.7, axis: "roll" as const, holding, d, p };
  return 100 * (((await effectsOf(place, share)).find((one) => one.key === key)?.more ?? Number.NaN) - 1);
};

describe("what README says is left out", () => {
  it("a tenth of a millisecond of delay", async () => {
    const share = 1e-4 / plan.airframe.controller.latency;
    expect(Math.round(-(await effect("controller.latency", share)))).toBe(
      stated(/every 0\.1 ms of delay more lowers the boundary by about (\d+) %/),
    );
  });

  it("a winding 50 degrees warmer: copper gains 0.39 % a degree (common tables, from memory)", async () => {
    expect(Math.round(await effect("motor.resistance", 50 * 0.0039))).toBe(
      stated(/there the boundary rises by about (\d+) %/),
    );
  });

  it("the size of the wash", () => {
    const check = WASH.checks.find(({ kind }) => kind === "estimate");
    expect(Math.round(check?.obtain() ?? 0)).toBe(stated(/calibrate: (\d+) % of thrust peak to peak/));
  });
});
