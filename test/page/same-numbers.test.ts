// The page and the map must tell the same numbers: the script as it is embedded, run on the data as it is embedded.
import { beforeAll, describe, expect, it } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { pageKernels, pageScript } from "../../src/flow/page-script.js";
import { loadVectorKernel } from "../../src/kernel/load-vector.js";
import { simulatedShape } from "../../src/kernel/rig.js";
import { roundToTwelveDigits } from "../../src/map/display-units.js";
import { kernelsIn } from "../../src/page/kernels.js";
import { levelMap, type Yielding } from "../../src/page/level-map.js";
import { levelTheoryDecider } from "../../src/page/level-theory.js";
import { type PageMap, pageMapOf } from "../../src/page/page-map.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";
import { renderPage } from "../../src/report/index.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { type Small, smallMap } from "../fixtures/report-map.js";
import { embedded } from "./embedded.js";

let small: Small;
let page = "";
beforeAll(async () => {
  small = await smallMap();
  page = await renderPage(small.map, pageScript());
});

const same = (value: number | null, mapped: number | null) =>
  (value === null ? null : roundToTwelveDigits(value)) === mapped;

describe("the page and the map", () => {
  it("agree on every trial, bit for bit, by the script that is embedded", () => {
    const { simulate } = embedded(page);
    const run = taskRunner(small.plan);
    const { grid } = small.map.axes.roll;
    for (const { index } of small.plan.variants)
      for (const [j, i] of [
        [0, 0],
        [1, 2],
        [3, 3],
        [6, 5],
      ] as const) {
        const [p, d] = [small.plan.sweep.grid.roll.p[j] as number, small.plan.sweep.grid.roll.d[i] as number];
        const done = run({ variant: index, p: Float64Array.of(p), d: Float64Array.of(d) });
        const trial = simulate(index, grid.p[j] as number, grid.d[i] as number);
        const expected = MEASURE_IDS.map((_, k) => (done.absent[k] === 0 ? done.values[k] : null));
        expect(MEASURE_IDS.map((id) => trial.measures[id])).toEqual(expected);
        expect(trial.outcome).toBe(["dies out", "sustained", "diverged", "at rest"][done.outcome[0] as number]);
      }
  });

  it("agree on the worst case: every level simulated in the page together gives the map", async () => {
    const pageMap: PageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(small.map))));
    const simulator = simulatorOf(pageMap.simulation as NonNullable<PageMap["simulation"]>, loadVectorKernel);
    const progress: number[] = [];
    const patience: Yielding = {
      pause: async () => {},
      onProgress: ({ done, of }) => progress.push(done / of),
      isCurrent: () => true,
    };
    for (const axis of ["roll", "pitch"] as const) {
      const levels = await Promise.all(
        simulator.levels.map((level) =>
          levelMap(simulator, axis, level, small.map.limits, patience, levelTheoryDecider(pageMap, axis, level)),
        ),
      );
      const mapped = small.map.axes[axis];
      for (const id of ["overshoot", "rebounds", "kick", "heat", "wobbleAngle"] as const)
        for (const i of pageMap.axes.roll.grid.d.keys())
          for (const j of pageMap.axes.roll.grid.p.keys()) {
            const values = levels.flatMap((level) => level?.measures[id][i]?.[j] ?? []);
            const worst = values.length === 0 ? null : Math.max(...values);
            expect(same(worst, mapped.measures[id][i]?.[j] ?? null)).toBe(true);
          }
      const sustained = pageMap.axes.roll.grid.d.map((_, i) =>
        pageMap.axes.roll.grid.p.map((__, j) => levels.some((level) => level?.verdict[i]?.[j] === "sustained")),
      );
      expect(sustained).toEqual(mapped.verdict.map((row) => row.map((verdict) => verdict === "sustained")));
    }
    expect(progress.at(-1)).toBe(1);
  });

  it("agree with the kernels the page brings along, every bit", async () => {
    const pageMap = pageMapOf(pageData(small.map));
    const simulation = pageMap.simulation as NonNullable<PageMap["simulation"]>;
    const patience: Yielding = { pause: async () => {}, onProgress: () => {}, isCurrent: () => true };
    const text = JSON.stringify(pageKernels(small.map).map((code) => code && Buffer.from(code).toString("base64")));
    const page = { getElementById: () => ({ textContent: text }) } as unknown as Document;
    const kernelFor = kernelsIn(page);
    const { plan } = small;
    const done = (["roll", "pitch"] as const).map(
      (axis) => simulatedShape(plan, plan.conditions[0].craft, axis).coupled,
    );
    for (const coupled of [0, 1] as const)
      expect(kernelFor({ rotors: 4, coupled, extended: 0, yaw: 0 })?.lanes).toBe(
        done.includes(coupled) ? 8 : undefined,
      );
    const pageMaps = await Promise.all(
      [simulatorOf(simulation, kernelFor), simulatorOf(simulation)].map((simulator) =>
        levelMap(simulator, "roll", simulator.levels[0] as never, small.map.limits, patience),
      ),
    );
    expect(pageMaps[0]).toEqual(pageMaps[1]);
    expect(pageMaps[0]?.verdict.length).toBe(pageMap.axes.roll.grid.d.length);
  });

  it("use the plain kernel where the browser compiles none", () => {
    const page = (text: string | null) =>
      ({ getElementById: () => text && { textContent: text } }) as unknown as Document;
    for (const text of [null, '["AGFzbQ=="]', "[null]"])
      expect(kernelsIn(page(text))({ rotors: 4, coupled: 0, extended: 0, yaw: 0 })).toBe(null);
  });

  it("stop simulating a level that is no longer wanted", async () => {
    const pageMap = pageMapOf(pageData(small.map));
    const simulator = simulatorOf(pageMap.simulation as NonNullable<PageMap["simulation"]>);
    let pauses = 0;
    const patience: Yielding = { pause: async () => void pauses++, onProgress: () => {}, isCurrent: () => pauses < 3 };
    expect(await levelMap(simulator, "roll", simulator.levels[0] as never, small.map.limits, patience)).toBe(null);
    expect(pauses).toBe(3);
  });
});

describe("what the page is given", () => {
  it("is the map, rounded to what is shown", () => {
    const pageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(small.map))));
    expect(pageMap.axes.roll.grid).toEqual(small.map.axes.roll.grid);
    for (const axis of ["roll", "pitch"] as const) {
      const [given, mapped] = [pageMap.axes[axis], small.map.axes[axis]];
      expect(given.verdict).toEqual(mapped.verdict);
      expect(given.safe).toEqual(mapped.safe);
      expect(given.decidedBy).toEqual(mapped.decidedBy);
      expect(given.absent).toEqual(mapped.absent);
      for (const id of MEASURE_IDS)
        for (const [i, row] of given.measures[id].entries())
          for (const [j, value] of row.entries()) {
            const ofMap = mapped.measures[id][i]?.[j] ?? null;
            expect(value).toBe(ofMap === null ? null : Number(ofMap.toPrecision(3)));
          }
      expect(pageMap.tunes[axis].start?.p).toBe(mapped.start?.p);
    }
  });

  it("holds no trials of a map that has too little to simulate them", async () => {
    const storedPlan = small.map.plan as { conditions: object[] };
    const bare = {
      ...small.map,
      plan: { ...storedPlan, conditions: storedPlan.conditions.map(({ ...one }) => ({ ...one, craft: undefined })) },
    };
    const older = JSON.parse(JSON.stringify(bare));
    expect(pageData(older).simulation).toBe(null);
    expect(await renderPage(older, pageScript())).toContain('id="map-data"');
  });
});
