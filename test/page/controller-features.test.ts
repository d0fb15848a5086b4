// What a controller may have besides its gains: notches in the gyro's chain and in D's, filters that move, gains over throttle. The page
// simulates such a craft with the bits the map was made of, and carries the kernels of its shape alone.
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { readYaml } from "../../src/files/yaml.js";
import { pageKernels, pageScript } from "../../src/flow/page-script.js";
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { kernelsIn } from "../../src/page/kernels.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";
import type { SimulationData } from "../../src/page-data/simulation-data.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { renderPage } from "../../src/report/index.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";
import { parseSmallSweep, SMALL_SWEEP } from "../fixtures/small-sweep.js";
import { embedded } from "./embedded.js";

const NOTCH: [string, string] = ["sensing: {noise", "sensing: {notch: [{centre: 210 Hz, width: 60 Hz}], noise"];
const MOVING: [string, string] = [
  "mohm}\nsensing: {",
  "mohm}\nsensing: {low_pass_schedule: [{order: 1, corners: [{throttle: 20 %, cutoff: 150 Hz}, {throttle: 60 %, cutoff: 400 Hz}]}], ",
];
// D holds the other axis too, so that one shape of craft is simulated on both.
const HELD: [string, string] = [
  "roll: {i: 40 %/(100 deg)}",
  "roll: {p: 20 %/(100 deg/s), i: 40 %/(100 deg), d: 2 %/(1000 deg/s^2)}",
];
const SLOPE = "rate_derivative_notch: [{centre: 90 Hz, width: 20 Hz}]";
const TRACKING = "rate_derivative_tracking_notch: [{harmonic: 1, width: 30 %, lowest: 80 Hz}]";
const SCHEDULE = "gain_schedule: [{throttle: 20 %, p: 1.2, i: 1.1, d: 1.3}, {throttle: 70 %, p: 0.7, i: 0.8, d: 0.6}]";
const controller = (...keys: string[]): [string, string] => [
  "  idle: 6 %\n",
  ["  idle: 6 %\n", ...keys.map((key) => `  ${key}\n`)].join(""),
];

describe.each([
  ["a notch of the gyro", [NOTCH]],
  ["a notch of D", [controller(SLOPE)]],
  ["gains over throttle", [controller(SCHEDULE)]],
  ["filters that move", [MOVING, controller(TRACKING)]],
  ["all of them", [NOTCH, MOVING, controller(SLOPE, TRACKING, SCHEDULE)]],
] as const)("the page of a craft with %s", (title, changes) => {
  let plan: Plan;
  let map: StabilityMap;
  beforeAll(async () => {
    const text = changed(SMALL_MODEL, HELD, ...changes);
    plan = planSweep(parseAirframe(readYaml("x.yaml", text)), parseSmallSweep(SMALL_SWEEP)) as Plan;
    const provenance = { productVersion: "0.0.0", command: "", model: "x.yaml", sweep: "sweeps/x.yaml" };
    map = JSON.parse(JSON.stringify((await simulate(plan, { workers: 0, provenance })).map));
  });

  it("simulates every trial with the program's bits, by the script that is embedded", async () => {
    const { simulate: inPage } = embedded(await renderPage(map, pageScript(), pageKernels(map)));
    const run = taskRunner(plan);
    for (const { index, axis } of plan.variants) {
      const si = plan.sweep.grid[axis];
      const { grid } = map.axes[axis];
      for (const [i, d] of si.d.entries())
        for (const [j, p] of si.p.entries()) {
          const { values, absent, outcome } = run({ variant: index, p: Float64Array.of(p), d: Float64Array.of(d) });
          const trial = inPage(index, grid.p[j] as number, grid.d[i] as number);
          expect(MEASURE_IDS.map((id) => trial.measures[id])).toEqual(
            MEASURE_IDS.map((_, k) => (absent[k] === 0 ? values[k] : null)),
          );
          expect(trial.outcome).toBe(OUTCOMES[outcome[0] as number]);
        }
    }
  });

  it("carries the kernels of its shape and no others, and they answer with the program's bits", () => {
    const codes = pageKernels(map);
    const extended = title === "a notch of the gyro" || title === "a notch of D" ? 0 : 1;
    const shipped = readFileSync(`dist/kernel/vector-4-1-${extended}-0.wasm`);
    expect(codes.map((code) => code && Buffer.compare(code, shipped))).toEqual([null, 0]);
    const text = JSON.stringify(codes.map((code) => code && Buffer.from(code).toString("base64")));
    const kernelFor = kernelsIn({ getElementById: () => ({ textContent: text }) } as unknown as Document);
    const simulator = simulatorOf(pageData(map).simulation as SimulationData, kernelFor);
    const { p, d } = plan.sweep.grid.pitch;
    const program = taskRunner(plan);
    for (const { index } of plan.variants) {
      const task = { variant: index, p: Float64Array.from(p), d: new Float64Array(p.length).fill(d[1] as number) };
      expect(simulator.run(task)).toEqual(program(task));
    }
  });

  it("is not simulated as a craft without", () => {
    const bare = planSweep(
      parseAirframe(readYaml("x.yaml", changed(SMALL_MODEL, HELD))),
      parseSmallSweep(SMALL_SWEEP),
    ) as Plan;
    const { p, d } = plan.sweep.grid.roll;
    const task = { variant: 0, p: Float64Array.from(p), d: new Float64Array(p.length).fill(d[1] as number) };
    expect(taskRunner(plan)(task).values).not.toEqual(taskRunner(bare)(task).values);
  });
});
