// Logs of a controller that has everything on: gains over throttle, a duty table, pack compensation, feed-forward, a command
// low-pass, filters that move. The loop is the kernel's, so what went in is what must come out.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { commandByTable, dutyByTable } from "../../src/airframe/duty.js";
import { mixerOf } from "../../src/airframe/mixer.js";
import { trimAt } from "../../src/airframe/trim.js";
import { craftOf, type SteadyFlight, steadyAt } from "../../src/fit/in-flight.js";
import { measuredResponse } from "../../src/fit/measured-response.js";
import { logRatios, theoryResponse, usablePart } from "../../src/fit/response-residuals.js";
import { fittedUnits } from "../../src/fit/units.js";
import type { Flight } from "../../src/flight/flight.js";
import type { FlightLog } from "../../src/flight/log.js";
import { readAirframe } from "../../src/flow/read.js";
import { type SimulatedFlight, simulateLog } from "../demonstration/simulate-log.mjs";
import { thereAndBack } from "../fixtures/moves.js";
import { flightLogOf } from "../fixtures/simulated-flight-log.js";

const curlew = readAirframe("models/curlew-r2.yaml").value;
const { roll, yaw } = curlew.controller;
const GAINS = { p: 0.14, i: roll.i, d: 0.001 };
const SET: Flight["gains"] = { roll: { own: false, ...GAINS }, pitch: { own: false, ...GAINS } };

/** Moves on both axes well above hover, on a pack below its nominal voltage. */
const FLIGHT: SimulatedFlight = {
  seconds: 7,
  gains: { roll: GAINS, pitch: GAINS, yaw: { p: yaw.p, i: yaw.i, d: 0 } },
  command: {
    roll: [...thereAndBack(0.5, 300), ...thereAndBack(3, -350), ...thereAndBack(5.3, 300)],
    pitch: [...thereAndBack(1.8, -250), ...thereAndBack(4.2, 300)],
  },
  throttle: [
    [0.05, 0],
    [0.1, 0.2],
  ],
  charge: 0.5,
};

const logOf = (more: Partial<SimulatedFlight> = {}, airframe: Airframe = curlew): FlightLog =>
  flightLogOf(simulateLog(airframe, { ...FLIGHT, ...more }));

/** Of the unit of a gain, which is 1 where the gains as set are those that act. */
const worth = (log: FlightLog, gain: "p" | "i" | "d", airframe = curlew) => {
  const unit = fittedUnits(log, airframe, SET).find((one) => one.gain === gain && one.axes.includes("roll"));
  if (unit === undefined) throw new Error(`no ${gain}`);
  return unit;
};

describe("a controller with everything on", () => {
  const log = logOf();

  it("has units that are worth what was set, whatever throttle and pack", () => {
    for (const gain of ["p", "i", "d"] as const)
      expect(Math.abs((worth(log, gain).value?.middle ?? 0) - 1), gain).toBeLessThan(0.003);
  });

  it("while the throttle moves as well, but for filters that are taken to stand where they are in the mean", () => {
    const moved = logOf({
      throttle: [
        [0.05, 0],
        [7, 0.25],
      ],
    });
    for (const gain of ["p", "i", "d"] as const) {
      const { value } = worth(moved, gain);
      expect(Math.abs((value?.middle ?? 0) - 1), gain).toBeLessThan(0.02);
      expect(value?.low, gain).toBeLessThan(1);
      expect(value?.high, gain).toBeGreaterThan(1);
    }
  });

  it("also where the log holds the commanded rate behind its low-pass", () => {
    const { commandLowPass: _, ...controller } = curlew.controller;
    const behind = logOf({}, { ...curlew, controller });
    expect(Math.abs((worth(behind, "p").value?.middle ?? 0) - 1)).toBeLessThan(0.003);
  });

  it("would not have them, were its table, its gains over throttle or what it feeds forward ignored", () => {
    for (const key of ["dutyTable", "gainSchedule", "feedForward", "packCompensation"] as const) {
      const { [key]: _, ...controller } = curlew.controller;
      const off = worth(log, "p", { ...curlew, controller }).value?.middle ?? 0;
      expect(Math.abs(off - 1), key).toBeGreaterThan(0.03);
    }
  });

  it("tells nothing of its units where nobody logged the voltage that it makes up for", () => {
    const { value, why } = worth({ ...log, voltage: null }, "p");
    expect(value).toBeNull();
    expect(why).toContain("makes up for the pack's voltage");
  });

  it("answers its duties as theory has it of a craft that shapes none; per command it would be a tenth off and more", () => {
    const mixer = mixerOf(curlew.rotors, curlew.centreOfMass);
    const estimates = measuredResponse(log, mixer, "roll").map(usablePart);
    expect(estimates.length).toBeGreaterThan(0);
    for (const estimate of estimates) {
      const { duty, voltage, frequencies } = estimate;
      /** ln of measured over theory's amplitude, over all frequencies. */
      const off = (steady: SteadyFlight): number => {
        const ratios = logRatios(estimate, theoryResponse(steady, "roll", frequencies)).filter((_, k) => k % 2 === 0);
        return ratios.reduce((sum, one) => sum + one, 0) / ratios.length;
      };
      const perCommand = craftOf(curlew, mixer, 0.5);
      expect(Math.abs(off(steadyAt(curlew, mixer, duty, { charge: 0.5, voltage })))).toBeLessThan(0.03);
      expect(Math.abs(off({ craft: perCommand, trim: trimAt(perCommand, duty) }))).toBeGreaterThan(0.1);
    }
  });
});

it("a table and its inverse undo each other, beyond its ends too", () => {
  for (const command of [-0.1, 0, 0.03, 0.1, 0.4, 0.75, 0.99, 1, 1.2])
    expect(commandByTable(curlew.controller, dutyByTable(curlew.controller, command))).toBeCloseTo(command, 12);
  expect(commandByTable({}, 0.3)).toBe(0.3);
});
