// The demonstration: a log of a craft that is not quite the model's leads in one command to a version that knows where the
// craft's boundary lies. The truth (hidden-craft.mjs) is read here alone.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ln } from "../../src/base/elementary.js";
import type { Spread } from "../../src/base/spread.js";
import { D_UNIT } from "../../src/base/units.js";
import { drawTheory } from "../../src/confidence/draw-theory.js";
import { loopPlaces } from "../../src/confidence/places.js";
import { fitFlights } from "../../src/flow/fit.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { toDisplayP } from "../../src/map/display-units.js";
import { HIDDEN, hiddenCraft, MODEL } from "./hidden-craft.mjs";
import { hiddenLogText } from "./hidden-log.mjs";

const SWEEP = "test/demonstration/boundary.yaml";
const model = readAirframe(MODEL);
const hidden = hiddenCraft();

/** Standard deviations from the number that is written; two of them are a spread. */
function score({ law, nominal, size }: Spread, value: number): number {
  return law === "log-normal" ? ln(value / nominal) / (0.5 * ln(1 + size)) : (value - nominal) / (0.5 * size);
}

/** Standard deviations between the 5th and the 95th of 100 of a normal number. */
const BETWEEN_ENDS = 3.29;
/** Standard error of either of them in 64 draws, in such deviations: sqrt(0.05 * 0.95 / 64) over the density there, 0.103. */
const OF_AN_END = 0.264;

describe("the hidden craft", () => {
  it("differs from the model by 1.2 to 1.4 standard deviations in each number it differs in", () => {
    const values: Readonly<Record<string, number>> = {
      "motor.resistance": hidden.motor.resistance,
      "motor.bell_inertia": hidden.motor.bellInertia,
      "propeller.inertia": hidden.propeller.inertia,
      "controller.latency": hidden.controller.latency,
      "wash.rms": hidden.wash.rms,
    };
    expect(Object.keys(values)).toEqual(Object.keys(HIDDEN));
    for (const [key, value] of Object.entries(values)) {
      const spread = model.value.spreads?.find((one) => one.key === key);
      if (spread === undefined) throw new Error(`${key} has no spread`);
      expect([key, Math.abs(score(spread, value)) > 1.2, Math.abs(score(spread, value)) < 1.4]).toEqual([
        key,
        true,
        true,
      ]);
    }
  });

  it("left the log that is shipped, small enough to ship", () => {
    const text = readFileSync("models/flights/meadow-2.csv", "utf8");
    expect(text.length).toBeLessThan(400_000);
    expect(text === hiddenLogText(), "node test/demonstration/simulate-hidden-craft.mjs writes it anew").toBe(true);
  });

  it("is told of by nobody: the flight file says that it is invented, and no number of it", () => {
    const text = readFileSync("models/flights/meadow-2.yaml", "utf8");
    expect(text).toContain("INVENTED");
    for (const value of Object.values(HIDDEN)) expect(text).not.toContain(value);
  });
});

describe("one command from its log", () => {
  const fitting = fitFlights({
    files: ["models/flights/meadow-2.yaml"],
    model: null,
    sweep: SWEEP,
    out: "models/sandpiper-r1-f1.yaml",
    command: "",
  });

  it("leads to a version within whose band the craft's boundary lies, a band narrower than before", async () => {
    const { file } = await fitting;
    const plan = planFor({ ...model, value: hidden }, readSweep(SWEEP));
    const theory = drawTheory(plan, loopPlaces(plan));
    for (const axis of ["roll", "pitch"] as const) {
      const { before, after } = file.axes[axis].band;
      let rows = 0;
      for (const [row, { d, low, high }] of after.entries()) {
        const own = theory[axis].boundary(d * D_UNIT);
        const was = before[row];
        if (own === null || low === null || high === null) continue;
        if (was === undefined || was.low === null || was.high === null) continue;
        rows++;
        const p = toDisplayP(own);
        const chance = (OF_AN_END * (high - low)) / BETWEEN_ENDS;
        const inside = low - chance < p && p < high + chance;
        expect([axis, d, inside, low, p, high]).toEqual([axis, d, true, low, p, high]);
        expect(high - low).toBeLessThan(0.75 * (was.high - was.low));
      }
      expect(rows).toBe(after.length);
    }
  });

  it("finds what its controller's units are worth from the log alone", async () => {
    const { file } = await fitting;
    const { scale } = model.value.controller;
    expect(file.units.map(({ gain, axes }) => `${gain} ${axes.join(" ")}`)).toEqual([
      "p roll pitch",
      "p yaw", // one of its P is worth another amount
      "i roll pitch yaw",
      "d roll pitch",
    ]);
    for (const { gain, axes, value } of file.units) {
      const truth = (axes.includes("pitch") ? scale?.[gain] : scale?.yaw?.p) ?? Number.NaN;
      expect([gain, value !== null && value.low < truth && truth < value.high]).toEqual([gain, true]);
      if (value !== null) expect((value.high - value.low) / value.middle).toBeLessThan(0.06);
    }
  });
});
