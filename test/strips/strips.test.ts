// Strips over yaw's P and over I, simulated: what passes, what ends the range, and what the model's own gains are worth.
import { beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import type { Strip, YawStrip } from "../../src/map/strip-format.js";
import { sharedTrim } from "../../src/plan/shared-trim.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { marginsOf } from "../../src/theory/margins.js";

const sweep = readSweep("test/fixtures/strips.yaml");
const plan = planFor(readAirframe(modelOf(sweep)), sweep);
const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const { strips: _, ...without } = plan.sweep;

let map: StabilityMap;
let bare: StabilityMap;
let yaw: YawStrip;
let roll: Strip;
beforeAll(async () => {
  map = (await simulate(plan, { workers: 0, provenance })).map;
  bare = (await simulate({ ...plan, sweep: without }, { workers: 0, provenance })).map;
  if (map.strips?.yaw === undefined || map.strips.i?.roll === undefined)
    throw new Error("no strips, or no start of roll");
  yaw = map.strips.yaw;
  roll = map.strips.i.roll;
}, 60_000);

describe("a map with strips", () => {
  it("is the map without them, and the strips; the climb is simulated with the gains they put in place", () => {
    const { strips: __, plan: ___, ladder, ...rest } = map;
    const { plan: ____, ladder: own, ...others } = bare;
    expect(ladder?.steps.length).toBe(own?.steps.length);
    expect(canonicalJson(rest)).toBe(canonicalJson(others));
    expect(bare.strips).toBeUndefined();
  });

  it("comes out alike in other chunks", async () => {
    const again = await simulate(plan, { workers: 0, pointsPerTask: 3, provenance });
    expect(canonicalJson(again.map.strips)).toBe(canonicalJson(map.strips));
  });

  it("is read back as it was written; a list of another length is refused", () => {
    const read = (data: unknown) => parseMap({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });
    const copy = JSON.parse(canonicalJson(map));
    expect(read(copy).strips).toEqual(JSON.parse(canonicalJson(map.strips)));
    copy.strips.yaw.fails.pop();
    expect(() => read(copy)).toThrow("strips.yaw.fails");
  });
});

describe("yaw", () => {
  it("of this model is too quick: its own P has less than 6 dB of gain margin, and another is chosen", () => {
    const own = yaw.gains.indexOf(yaw.declared);
    expect(yaw.fails[own]?.limit).toBe("gain margin");
    expect(yaw.choice).not.toBeNull();
    expect(yaw.choice).toBeLessThan(yaw.declared);
    expect(yaw.fails[yaw.gains.indexOf(yaw.choice as number)]).toBeNull();
  });

  it("ends where theory's gain margin is 6 dB", () => {
    const { holding, controller } = { holding: plan.holding, controller: plan.airframe.controller };
    const { craft, hover } = plan.conditions[0];
    const start = (axis: "roll" | "pitch") => {
      const found = map.axes[axis].start;
      return found === null ? holding[axis] : { p: found.p * P_UNIT, d: found.d * D_UNIT, i: controller[axis].i };
    };
    const held = { roll: start("roll"), pitch: start("pitch"), yaw: controller.yaw };
    const pieces = axisPieces(craft, sharedTrim(craft, hover.throttle), "yaw", held);
    const { gainUp } = marginsOf(pieces, { p: (yaw.range?.to ?? 0) * P_UNIT, i: controller.yaw.i, d: 0 });
    expect(yaw.range?.above?.limit).toBe("gain margin");
    expect(Math.abs((gainUp ?? 0) - 6)).toBeLessThan(0.3);
  });

  it("turns on too long at the least P, and oscillates at the most", () => {
    expect(yaw.fails[0]).not.toBeNull();
    expect(["rise", "settling", "overshoot"]).toContain(yaw.range?.below?.limit);
    expect(yaw.fails.at(-1)?.limit).toBe("sustained oscillation");
  });
});

describe("I", () => {
  // P holds the rate at torque/P and I turns the craft back: theta' + (I/P) theta = torque/P. A gust of one minus cosine pushes by
  // its slope, sin(w t), over one period; D and the loop's own lag are left out. Derived here, no source.
  it("leaves of a drift what a first-order lag of P/I leaves, within 4 per cent of it all", () => {
    const start = map.axes.roll.start as NonNullable<StabilityMap["axes"]["roll"]["start"]>;
    const script = plan.sweep.strips?.i?.scripts[0]?.script;
    const [gust] = script?.gusts ?? [];
    if (gust?.kind !== "pulse") throw new Error("the script has no pulse");
    const length = gust.length / gust.speed;
    const most = (rate: number) => {
      let [theta, largest] = [0, 0];
      const step = 1e-4;
      for (let t = 0; t < length; t += step) {
        theta += step * (Math.sin((2 * Math.PI * t) / length) - rate * theta);
        largest = Math.max(largest, Math.abs(theta));
      }
      return largest;
    };
    const free = most(0);
    for (const [k, i] of roll.gains.entries()) {
      const expected = (100 * most((i * I_UNIT) / (start.p * P_UNIT))) / free;
      expect(Math.abs((roll.measures.drift?.[k] ?? Number.NaN) - expected), `I ${i}`).toBeLessThan(4);
    }
  });

  it("too low leaves drift, too high swings back after a stop, and the model's lies between", () => {
    expect([roll.range?.below?.limit, roll.range?.above?.limit]).toEqual(["drift", "overshoot"]);
    expect(roll.choice).toBe(roll.declared);
    const overshoot = roll.measures.overshoot ?? [];
    expect(overshoot.at(-1) ?? 0).toBeGreaterThan(2 * (overshoot[1] ?? 0));
  });

  it("begins at none at all, against which drift is read", () => {
    expect([roll.gains[0], roll.measures.drift?.[0]]).toEqual([0, 100]);
  });
});
