import { describe, expect, it } from "vitest";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { fly, scratchFor } from "../../src/kernel/fly.js";
import { recorded } from "../../src/page/flight/recording.js";
import { plainBench } from "../../src/run/plain.js";

const sweep = readSweep("test/fixtures/report.yaml");
const plan = planFor(readAirframe(modelOf(sweep)), sweep);

describe("a recorded flight", () => {
  it.each(plan.variants.filter((_, k) => k % 5 === 0).map((variant) => [variant.script.name, variant] as const))(
    "%s has the trace of a flight in one go, bit for bit",
    (_, variant) => {
      const bench = plainBench(plan, variant);
      const scratch = scratchFor(bench.rig);
      fly(bench.rig, 0.06, 2e-4, bench.question.window, scratch);
      const { trace, rates, axis, period } = recorded(bench, 0.06, 2e-4);
      expect(trace).toEqual(scratch.trace);
      const each = Math.round(period / bench.rig.period);
      expect([...rates[axis]]).toEqual([...scratch.trace].filter((__, k) => k % each === 0));
    },
  );

  it("starts with every rotor at its trimmed speed, and hears the throttle", () => {
    const punch = plan.variants.find(({ script }) => script.name === "punch-out") ?? plan.variants[0];
    const { speeds } = recorded(plainBench(plan, punch), 0.06, 2e-4);
    expect(speeds.map((series) => series[0])).toEqual([...punch.trim.speeds]);
    for (const series of speeds) expect(Math.max(...series)).toBeGreaterThan(1.8 * (series[0] as number));
  });
});
