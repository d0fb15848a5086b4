// What a report says of the physics steps: those a plan chose, and those a model declares that are too few.

import { expect, test } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import { bothAxes } from "../fixtures/both-axes.js";

const { value, document } = readSweep("test/fixtures/quick.yaml");
const sweep = {
  value: {
    ...value,
    grid: bothAxes({ p: [4, 60].map((p) => p * P_UNIT), d: [0, 3.6].map((d) => d * D_UNIT) }),
    scripts: value.scripts.filter(({ script }) => script.name === "nudge"),
  },
  document,
};
const model = readAirframe("models/sandpiper-r1.yaml");

async function mapWith(substeps: number | null) {
  const controller = { ...model.value.controller, rate: 1000, latency: 2e-3, substeps };
  const plan = planFor({ ...model, value: { ...model.value, controller } }, sweep);
  const provenance = { productVersion: "0.0.0", command: "", model: "", sweep: "" };
  return (await simulate(plan, { workers: 0, provenance })).map;
}

const worst = (map: Awaited<ReturnType<typeof mapWith>>): number =>
  Math.max(
    ...(["roll", "pitch"] as const).map((axis) => Math.abs(map.axes[axis].boundary.theory?.step?.difference ?? 0)),
  );

test("one step at 1 kHz, as declared: simulated, with a line for what it does to the boundary", async () => {
  const map = await mapWith(1);
  expect(worst(map)).toBeGreaterThan(0.5);
  expect(map.assumptions.join("\n")).toMatch(
    /Time step: with controller\.substeps 1 it moves the boundary of (roll|pitch) by up to [\d.]+ % of P \([\d.]+ % throttle, fresh pack, D/,
  );
});

test("left open: as many as it takes, in the map's model and among what was assumed", async () => {
  const map = await mapWith(null);
  const { substeps } = (map.model as typeof model.value).controller;
  expect(substeps).toBeGreaterThan(1);
  expect(worst(map)).toBeLessThan(0.5);
  const lines = map.assumptions.join("\n");
  expect(lines).toContain(`model: controller.substeps: ${substeps}, chosen`);
  expect(lines).not.toContain("Time step:");
});
