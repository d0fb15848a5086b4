// Ten seconds at full throttle under everything that shakes a craft: whatever the model, they are simulated or refused.
import { describe, expect, it } from "vitest";
import { readDocument } from "../../src/files/read.js";
import { readYaml } from "../../src/files/yaml.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe } from "../../src/flow/read.js";
import type { Plan } from "../../src/plan/plan.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { parseSweep } from "../../src/sweep/resolve.js";
import { NIGHT, triedSlowly } from "./cases.js";
import { type Extreme, extreme, massOf, readExtreme } from "./extreme-craft.js";
import { usedOrRefused } from "./outcome.js";

const SCRIPT = `format: gainscape.script/1
name: long
title: ten seconds of it
kind: hover
axes: [roll, pitch]
duration: 10 s
window: {from: 500 ms, to: 9.2 s}
tail: {from: 9.2 s, to: 10 s}
noise: on
throttle: [{at: 0 s, value: 100 %}]
descent: [{at: 0 s, value: 1.25 vh}, {at: 9 s, value: 1.25 vh}, {at: 9.1 s, value: none}]
gusts:
  - {kind: pulse, at: 1 s, peak: 30 m/s, length: 400 m, speed: 60 m/s}
  - {kind: turbulence, from: 0 s, to: 9 s, rms: 20 m/s, scale: 0.1 m, speed: 60 m/s}
`;

const SWEEP = `format: gainscape.sweep/1
name: long
title: one long script
grid:
  p: {from: 0.1 %/(100 deg/s), to: 1000 %/(100 deg/s), points: 2}
  d: {from: 0 %/(1000 deg/s^2), to: 500 %/(1000 deg/s^2), points: 2}
scripts:
  - {use: long}
conditions:
  - {name: full, charge: 100 %}
`;

const document = readYaml("sweeps/long.yaml", SWEEP);
const open = (path: string) => (path.endsWith("long.yaml") ? readYaml(path, SCRIPT) : readDocument(path));
const sweep = { value: parseSweep(document, open), document };

/** One trial: both axes meet the same. */
function simulate(plan: Plan): void {
  const run = taskRunner(plan);
  const { p, d } = plan.sweep.grid.roll;
  for (const { index } of plan.variants.slice(0, 1)) {
    const { values, outcome } = run({ variant: index, p: Float64Array.of(p[0]), d: Float64Array.of(d[0]) });
    expect(outcome).toHaveLength(1);
    expect(values.every(Number.isFinite)).toBe(true);
  }
}

let trialsRun = 0;

async function survives(craft: Extreme): Promise<void> {
  const plan = usedOrRefused(() => planFor(readExtreme(craft, massOf(craft)), sweep));
  if (plan === null) return;
  trialsRun++;
  simulate(plan);
}

describe("ten seconds at full throttle", () => {
  it("of a shipped craft whose vibration is of the highest harmonic there is", () => {
    const model = readAirframe("models/dunlin-r1.yaml");
    const { sensing } = model.value;
    const vibration = [{ harmonic: 20, atHover: 0.01 }];
    simulate(planFor({ ...model, value: { ...model.value, sensing: { ...sensing, vibration } } }, sweep));
  });

  it("of a craft of extremes", async () => {
    await triedSlowly(NIGHT ? 0.1 : 0.01, extreme, survives);
    expect(trialsRun).toBeGreaterThan(1);
  });
});
