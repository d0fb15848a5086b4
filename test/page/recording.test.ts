import { describe, expect, it } from "vitest";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { upward } from "../../src/page/trial/attitude.js";
import { type Recording, recorded } from "../../src/page/trial/recording.js";
import { planSweep } from "../../src/plan/plan.js";
import { plainTrials } from "../../src/run/plain.js";
import { tinyPlan } from "../run/tiny-plan.js";

const sweep = readSweep("test/fixtures/report.yaml");
const plan = planFor(readAirframe(modelOf(sweep)), sweep);

describe("a recorded trial", () => {
  it.each(plan.variants.filter((_, k) => k % 5 === 0).map((variant) => [variant.script.name, variant] as const))(
    "%s has the trace of a trial in one go, bit for bit",
    (_, variant) => {
      const trials = plainTrials(plan, variant);
      const scratch = scratchFor(trials.rig);
      simulateTrial(trials.rig, 0.06, 2e-4, trials.question.window, scratch);
      const { trace, rates, axis, period } = recorded(trials, 0.06, 2e-4);
      expect(trace).toEqual(scratch.trace);
      const each = Math.round(period / trials.rig.period);
      expect([...rates[axis]]).toEqual([...scratch.trace].filter((__, k) => k % each === 0));
    },
  );

  it("ends where a craft too light for its rotors is lost, every number of it finite", () => {
    const { airframe, sweep } = tinyPlan();
    const inertia = { xx: 1e-7, yy: 1e-7, zz: 2e-7, xy: 0, xz: 0, yz: 0 };
    // Its yaw would be unstable as well, which is refused.
    const controller = { ...airframe.controller, yaw: { p: 0, i: 0, d: 0 } };
    const feather = planSweep({ ...airframe, inertia, controller }, sweep);
    if (!("variants" in feather)) throw new Error("cannot be planned");
    for (const variant of feather.variants)
      for (const p of [0.06, 0.3]) {
        const { rates, command, speeds, trace } = recorded(plainTrials(feather, variant), p, 2e-3);
        expect(trace.some((rate) => !(Math.abs(rate) < 1e4))).toBe(true);
        for (const series of [...rates, ...speeds]) {
          expect(series.every(Number.isFinite)).toBe(true);
          expect(series.length).toBe(command.length);
        }
        expect(command.length).toBeGreaterThan(1);
        expect(upward({ rates, period: 0.001 } as Recording).every(Number.isFinite)).toBe(true);
      }
  });

  it("starts with every rotor at its trimmed speed, and hears the throttle", () => {
    const punch = plan.variants.find(({ script }) => script.name === "punch-out") ?? plan.variants[0];
    const { speeds } = recorded(plainTrials(plan, punch), 0.06, 2e-4);
    expect(speeds.map((series) => series[0])).toEqual([...punch.trim.speeds]);
    for (const series of speeds) expect(Math.max(...series)).toBeGreaterThan(1.8 * (series[0] as number));
  });
});
