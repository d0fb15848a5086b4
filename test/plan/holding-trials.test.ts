// With much I the swept axis must be judged as theory judges it: the hold of the other axis has no effect.
import { expect, test } from "vitest";
import { I_UNIT, P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import { softHold } from "../../src/plan/soft-hold.js";
import { bothAxes, linesOf } from "../fixtures/both-axes.js";
import { closedLoopPoles, spectralRadius } from "../theory/closed-loop-poles.js";

const sweep = readSweep("test/fixtures/quick.yaml");
const model = readAirframe("models/sandpiper-r1.yaml");
const { controller } = model.value;
const strong = (axis: "roll" | "pitch") => ({ ...controller[axis], i: 60 * I_UNIT });
const plan = planFor(
  {
    ...model,
    value: { ...model.value, controller: { ...controller, roll: strong("roll"), pitch: strong("pitch") } },
  },
  {
    ...sweep,
    value: {
      ...sweep.value,
      grid: bothAxes({ p: [8, 16, 24, 32, 40].map((p) => p * P_UNIT), d: linesOf(sweep.value, "roll").d }),
    },
  },
);
const provenance = { productVersion: "0.0.0", command: "", model: "", sweep: "" };
const { map } = await simulate(plan, { workers: 0, provenance });

test.each(["roll", "pitch"] as const)("%s: theory and the trials of a nudge agree at every grid point", (axis) => {
  const { margins, boundary } = map.axes[axis];
  const byNudge = boundary.byVariant.filter(({ kind }) => kind === "nudge");
  const calm = map.axes.roll.grid.d.map((_, row) =>
    map.axes.roll.grid.p.map((p) =>
      byNudge.every(({ perD }) => perD[row].stable.some(({ from, to }) => p >= from && p <= to)),
    ),
  );
  const stable = margins.phase.map((row) => row.map((phase) => phase === null || phase > 0));
  expect(calm.flat().filter((one) => one).length).toBeGreaterThan(5);
  expect(calm).toEqual(stable);
});

test.each(["roll", "pitch"] as const)("%s: has a start, and no place where theory and trials part", (axis) => {
  const { start, boundary } = map.axes[axis];
  expect(start).not.toBeNull();
  expect(boundary.theory?.agreement?.disagreements).toEqual([]);
});

test("a hold chosen without I would not have held roll", () => {
  const [{ craft, hover }] = plan.conditions;
  const none = { p: 0, i: 0, d: 0 };
  const roll = { p: softHold(craft, hover, "roll").p, i: 60 * I_UNIT, d: 0 };
  const poles = closedLoopPoles(craft, hover, { roll, pitch: none, yaw: controller.yaw });
  expect(spectralRadius(poles)).toBeGreaterThan(1 + 1e-4);
});
