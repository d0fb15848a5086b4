// Trials of a draw in the page: the numbers that map.json holds of its draws make each of them again, to the bit.
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { runDraws } from "../../src/flow/draws.js";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { loadVectorKernel } from "../../src/kernel/load-vector.js";
import { drawnNumbers, withNumbers } from "../../src/map/drawn-numbers.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { drawSimulator, simulatorOf } from "../../src/page/simulator.js";
import { trialFrom, trialOf } from "../../src/page/trial/trial.js";
import { pageData } from "../../src/page-data/data.js";
import type { SimulationData } from "../../src/page-data/simulation-data.js";
import type { Plan } from "../../src/plan/plan.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { drawnMap } from "../fixtures/drawn-map.js";

describe("the trials of a draw", () => {
  let map: StabilityMap;
  let plan: Plan;
  let data: SimulationData;
  let choosing = 0;
  beforeAll(async () => {
    map = await drawnMap();
    const sweep = readSweep("test/fixtures/draws.yaml");
    const model = readAirframe(modelOf(sweep));
    const draws = runDraws(planFor(model, sweep), model.document);
    if (draws === null) throw new Error("the sweep has draws");
    ({ plan } = draws);
    choosing = draws.uncertainty.draws;
    data = JSON.parse(JSON.stringify(pageData(map).simulation));
  }, 300_000);

  it("have the bits of the program's, by the vector kernel and by the plain one", () => {
    const run = taskRunner(plan);
    const { p, d } = plan.sweep.grid.roll;
    for (const draw of [0, 7, 63]) {
      const simulator = drawSimulator(data, draw, loadVectorKernel);
      if (simulator === null) throw new Error("the map holds its draws");
      for (const { index } of plan.variants) {
        const gains = {
          p: Float64Array.of(p[4] as number, p[8] as number),
          d: Float64Array.of(d[2] as number, d[5] as number),
        };
        const program = run({ variant: index, ...gains, draw: choosing + draw });
        const paged = simulator.run({ variant: index, ...gains });
        expect(paged).toEqual(program);
        const variant = simulator.plan.variants[index];
        if (variant === undefined) throw new Error("the same variants");
        const single = trialOf(simulator.trialsFor(variant), gains.p[0] as number, gains.d[0] as number);
        expect(single).toEqual(trialFrom(program, OUTCOMES[program.outcome[0] as number] ?? "at rest"));
      }
    }
  });

  it("are not those of the model as it is written", () => {
    const { p, d } = plan.sweep.grid.roll;
    const task = { variant: 2, p: Float64Array.of(p[4] as number), d: Float64Array.of(d[2] as number) };
    expect(drawSimulator(data, 5)?.run(task).values).not.toEqual(simulatorOf(data).run(task).values);
  });

  it("take a number of columns that a page can carry", () => {
    const numbers = map.uncertainty?.numbers;
    expect(numbers?.values).toHaveLength(map.uncertainty?.draws.length ?? 0);
    expect(numbers?.places.length).toBeLessThan(400);
    expect(drawnNumbers(plan, (plan.draws ?? []).slice(choosing))).toEqual(numbers);
    expect(drawnNumbers(plan, [plan])).toEqual({ places: [], values: [[]] });
  });

  it("are left out where the map holds too little of its draws", () => {
    const { numbers: _, ...uncertainty } = map.uncertainty as NonNullable<StabilityMap["uncertainty"]>;
    const simulation = pageData({ ...map, uncertainty }).simulation as SimulationData;
    expect(simulation.draws).toBe(undefined);
    expect(drawSimulator(simulation, 0)).toBe(null);
    expect(drawSimulator(data, 64)).toBe(null);
  });

  it.each([["conditions.9.craft.emf"], ["__proto__.polluted"], ["airframe.name"], [""]])(
    "nothing is written to %j, which is no number of theirs",
    (place) => {
      const numbers = { places: [[place]], values: [[1]] };
      expect(withNumbers(data, numbers, 0)).toBe(null);
      const odd = { ...map, uncertainty: { ...map.uncertainty, numbers } } as StabilityMap;
      expect(pageData(odd).simulation?.draws).toBe(undefined);
      expect(({} as { polluted?: number }).polluted).toBe(undefined);
    },
  );

  it("are refused in a map whose numbers do not fit its draws", () => {
    const numbers = map.uncertainty?.numbers;
    const data = { ...map, uncertainty: { ...map.uncertainty, numbers: { ...numbers, values: [[1]] } } };
    const read = () => parseMap({ file: "map.json", data, place: () => ({ line: 1, column: 1 }) });
    expect(read).toThrow(InputError);
    expect(read).toThrow(/uncertainty\.numbers\.values/);
  });
});
