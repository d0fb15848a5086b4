// The page and the map must tell the same numbers: the script as it is embedded, run on the data as it is embedded.
import { createContext, runInContext } from "node:vm";
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
import type { ConsoleApi } from "../../src/page/trial/trial.js";
import { renderPage } from "../../src/report/index.js";
import { pageData } from "../../src/report/page/data.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { type Small, smallMap } from "../fixtures/report-map.js";

let small: Small;
let page = "";
beforeAll(async () => {
  small = await smallMap();
  page = await renderPage(small.map, pageScript());
});

/** The page's script in a world that holds nothing but its data: it offers its trials before it looks for the rest. */
function embedded(): ConsoleApi {
  const [, data = ""] = /<script type="application\/json" id="map-data">(.*?)<\/script>/s.exec(page) ?? [];
  const [, script = ""] = /<\/script>\s*<script>(.*?)<\/script>/s.exec(page) ?? [];
  const document = { getElementById: (id: string) => (id === "map-data" ? { textContent: data } : null) };
  const world = createContext({ document, TextEncoder });
  expect(() => runInContext(script, world)).toThrow(); // it finds no page to wake
  return (world as unknown as { gainscape: ConsoleApi }).gainscape;
}

const same = (value: number | null, mapped: number | null) =>
  (value === null ? null : roundToTwelveDigits(value)) === mapped;

describe("the page and the map", () => {
  it("agree on every trial, bit for bit, by the script that is embedded", () => {
    const { simulate: fly } = embedded();
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
        const flown = run({ variant: index, p: Float64Array.of(p), d: Float64Array.of(d) });
        const trial = fly(index, grid.p[j] as number, grid.d[i] as number);
        const expected = MEASURE_IDS.map((_, k) => (flown.absent[k] === 0 ? flown.values[k] : null));
        expect(MEASURE_IDS.map((id) => trial.measures[id])).toEqual(expected);
        expect(trial.outcome).toBe(["dies out", "sustained", "diverged", "at rest"][flown.outcome[0] as number]);
      }
  });

  it("agree on the worst case: every level flown in the page together gives the map", async () => {
    const survey: PageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(small.map))));
    const fleet = simulatorOf(survey.simulation as NonNullable<PageMap["simulation"]>, loadVectorKernel);
    const told: number[] = [];
    const patience: Yielding = {
      pause: async () => {},
      onProgress: ({ done: flown, of }) => told.push(flown / of),
      wanted: () => true,
    };
    for (const axis of ["roll", "pitch"] as const) {
      const levels = await Promise.all(
        fleet.levels.map((level) =>
          levelMap(fleet, axis, level, small.map.limits, patience, levelTheoryDecider(survey, axis, level)),
        ),
      );
      const mapped = small.map.axes[axis];
      for (const id of ["overshoot", "rebounds", "kick", "heat", "wobbleAngle"] as const)
        for (const i of survey.axes.roll.grid.d.keys())
          for (const j of survey.axes.roll.grid.p.keys()) {
            const values = levels.flatMap((level) => level?.measures[id][i]?.[j] ?? []);
            const worst = values.length === 0 ? null : Math.max(...values);
            expect(same(worst, mapped.measures[id][i]?.[j] ?? null)).toBe(true);
          }
      const sustained = survey.axes.roll.grid.d.map((_, i) =>
        survey.axes.roll.grid.p.map((__, j) => levels.some((level) => level?.verdict[i]?.[j] === "sustained")),
      );
      expect(sustained).toEqual(mapped.verdict.map((row) => row.map((verdict) => verdict === "sustained")));
    }
    expect(told.at(-1)).toBe(1);
  });

  it("agree with the kernels the page brings along, every bit", async () => {
    const survey = pageMapOf(pageData(small.map));
    const flying = survey.simulation as NonNullable<PageMap["simulation"]>;
    const patience: Yielding = { pause: async () => {}, onProgress: () => {}, wanted: () => true };
    const text = JSON.stringify(pageKernels(small.map).map((code) => code && Buffer.from(code).toString("base64")));
    const page = { getElementById: () => ({ textContent: text }) } as unknown as Document;
    const kernelFor = kernelsIn(page);
    const { plan } = small;
    const flown = (["roll", "pitch"] as const).map(
      (axis) => simulatedShape(plan, plan.conditions[0].craft, axis).coupled,
    );
    for (const coupled of [0, 1] as const)
      expect(kernelFor({ rotors: 4, coupled })?.lanes).toBe(flown.includes(coupled) ? 8 : undefined);
    const surveys = await Promise.all(
      [simulatorOf(flying, kernelFor), simulatorOf(flying)].map((fleet) =>
        levelMap(fleet, "roll", fleet.levels[0] as never, small.map.limits, patience),
      ),
    );
    expect(surveys[0]).toEqual(surveys[1]);
    expect(surveys[0]?.verdict.length).toBe(survey.axes.roll.grid.d.length);
  });

  it("fly by the plain kernel where the browser compiles none", () => {
    const page = (text: string | null) =>
      ({ getElementById: () => text && { textContent: text } }) as unknown as Document;
    for (const text of [null, '["AGFzbQ=="]', "[null]"])
      expect(kernelsIn(page(text))({ rotors: 4, coupled: 0 })).toBe(null);
  });

  it("stop flying a level nobody waits for", async () => {
    const survey = pageMapOf(pageData(small.map));
    const fleet = simulatorOf(survey.simulation as NonNullable<PageMap["simulation"]>);
    let pauses = 0;
    const patience: Yielding = { pause: async () => void pauses++, onProgress: () => {}, wanted: () => pauses < 3 };
    expect(await levelMap(fleet, "roll", fleet.levels[0] as never, small.map.limits, patience)).toBe(null);
    expect(pauses).toBe(3);
  });
});

describe("what the page is given", () => {
  it("is the map, rounded to what is shown", () => {
    const survey = pageMapOf(JSON.parse(JSON.stringify(pageData(small.map))));
    expect(survey.axes.roll.grid).toEqual(small.map.axes.roll.grid);
    for (const axis of ["roll", "pitch"] as const) {
      const [given, mapped] = [survey.axes[axis], small.map.axes[axis]];
      expect(given.verdict).toEqual(mapped.verdict);
      expect(given.safe).toEqual(mapped.safe);
      expect(given.decidedBy).toEqual(mapped.decidedBy);
      expect(given.absent).toEqual(mapped.absent);
      for (const id of MEASURE_IDS)
        for (const [i, row] of given.measures[id].entries())
          for (const [j, value] of row.entries()) {
            const whole = mapped.measures[id][i]?.[j] ?? null;
            expect(value).toBe(whole === null ? null : Number(whole.toPrecision(3)));
          }
      expect(survey.tunes[axis].start?.p).toBe(mapped.start?.p);
    }
  });

  it("holds no trials of a map that kept too little to fly them", async () => {
    const kept = small.map.plan as { conditions: object[] };
    const bare = {
      ...small.map,
      plan: { ...kept, conditions: kept.conditions.map(({ ...one }) => ({ ...one, craft: undefined })) },
    };
    const older = JSON.parse(JSON.stringify(bare));
    expect(pageData(older).simulation).toBe(null);
    expect(await renderPage(older, pageScript())).toContain('id="map-data"');
  });
});
