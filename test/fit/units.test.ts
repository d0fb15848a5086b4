// What one unit of P, I and D is worth, from logs of the kernel's loop whose gains are known to the last bit, and from a loop
// that is not ours: a few lines of difference equations on a plain integrator.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { stream, uniform } from "../../src/base/random.js";
import { actingGains } from "../../src/fit/axis-units.js";
import type { FittedUnit } from "../../src/fit/format.js";
import { fittedUnits } from "../../src/fit/units.js";
import type { Flight } from "../../src/flight/flight.js";
import type { FlightLog } from "../../src/flight/log.js";
import { readAirframe } from "../../src/flow/read.js";
import { type SimulatedFlight, simulateLog } from "../demonstration/simulate-log.mjs";
import { thereAndBack } from "../fixtures/moves.js";
import { flightLogOf } from "../fixtures/simulated-flight-log.js";

const sandpiper = readAirframe("models/sandpiper-r1.yaml").value;
const { scale, roll, yaw } = sandpiper.controller;
const UNIT = { p: scale?.p ?? 0, d: scale?.d ?? 0, i: roll.i / 1250 };
const own = (p: number, d: number) => ({ own: true, p, i: 1250, d });
const SET: Flight["gains"] = {
  roll: own(2400, 1760),
  pitch: own(2800, 2000),
  yaw: { own: false, p: yaw.p, i: yaw.i, d: 0 },
};

const acted = (p: number, d: number) => ({ p: p * UNIT.p, i: 1250 * UNIT.i, d: d * UNIT.d });
const FLIGHT: SimulatedFlight = {
  seconds: 8,
  gains: { roll: acted(2400, 1760), pitch: acted(2800, 2000) },
  command: {
    roll: [...thereAndBack(0.5, 300), ...thereAndBack(4, 400)],
    pitch: [...thereAndBack(2, -300), ...thereAndBack(6, 250)],
    yaw: [...thereAndBack(3, 100), ...thereAndBack(5.2, -100)],
  },
};

const logOf = (more: Partial<SimulatedFlight> = {}, airframe: Airframe = sandpiper): FlightLog =>
  flightLogOf(simulateLog(airframe, { ...FLIGHT, ...more }));

const of = (units: readonly FittedUnit[], gain: string, set = "own"): FittedUnit => {
  const found = units.filter((unit) => unit.gain === gain && unit.set === set);
  expect(found, `${gain} ${set}`).toHaveLength(1);
  return found[0];
};

function expectWithin(unit: FittedUnit, truth: number, halfAtMost: number): void {
  const { value } = unit;
  if (value === null) throw new Error(`${unit.gain}: ${unit.why}`);
  expect(truth).toBeGreaterThan(value.low);
  expect(truth).toBeLessThan(value.high);
  expect((value.high - value.low) / 2 / truth).toBeLessThan(halfAtMost);
}

describe("one unit of a gain", () => {
  it("is told by a log of every control period to three parts in a thousand", () => {
    const units = fittedUnits(logOf(), sandpiper, SET);
    for (const gain of ["p", "i", "d"] as const) {
      expectWithin(of(units, gain), UNIT[gain], 0.004);
      expect(of(units, gain).axes).toEqual(["roll", "pitch"]);
    }
  });

  it.each([2, 5, 8])(
    "lies within its spread in a log of every %i-th control period, which says what widens D's",
    (every) => {
      const units = fittedUnits(logOf({ every }), sandpiper, SET);
      expectWithin(of(units, "p"), UNIT.p, 0.01);
      expectWithin(of(units, "i"), UNIT.i, 0.03);
      expectWithin(of(units, "d"), UNIT.d, 0.03);
      expect(of(units, "d").why).toContain(`${Math.round(4000 / every)} rows a second and the loop runs at 4000`);
    },
  );

  it("is a factor of 1 where the gains were set in SI units, and 1.1 where a tenth more acted", () => {
    const units = fittedUnits(logOf({ every: 2 }), sandpiper, SET);
    expectWithin(of(units, "p", "si"), 1, 0.02);
    const more = { ...SET, yaw: { own: false, p: yaw.p / 1.1, i: yaw.i, d: 0 } };
    expectWithin(of(fittedUnits(logOf({ every: 2 }), sandpiper, more), "p", "si"), 1.1, 0.02);
  });

  it("is read low from a noisy slow log by plain least squares, and not by what the sticks moved", () => {
    const noisy = { ...sandpiper, sensing: { ...sandpiper.sensing, noiseDensity: 5 * sandpiper.sensing.noiseDensity } };
    const units = fittedUnits(logOf({ every: 8 }, noisy), noisy, SET);
    expectWithin(of(units, "d"), UNIT.d, 0.1);
    const low = /would come out ([\d.]+) % low/.exec(of(units, "d").why);
    expect(Number(low?.[1])).toBeGreaterThan(5);
  });

  it("finds by how many control periods a log's duties stand behind its rates", () => {
    const log = logOf();
    const late = { ...log, duty: log.duty.map((column) => column?.map((_, k) => column[Math.max(0, k - 3)]) ?? null) };
    const units = fittedUnits(late, sandpiper, SET);
    expectWithin(of(units, "d"), UNIT.d, 0.004);
  });

  it("is one of each axis where they do not agree", () => {
    const units = fittedUnits(logOf({ every: 2 }), sandpiper, { ...SET, pitch: own(2500, 2000) });
    expect(units.filter(({ gain, set }) => gain === "p" && set === "own").map(({ axes }) => axes)).toEqual([
      ["roll"],
      ["pitch"],
    ]);
    expect(of(units, "d").axes).toEqual(["roll", "pitch"]);
  });
});

describe("a log that cannot tell", () => {
  const withoutCommand = (log: FlightLog): FlightLog => ({ ...log, command: { roll: null, pitch: null, yaw: null } });

  it("tells of D alone without commanded rates, and says why", () => {
    const units = fittedUnits(withoutCommand(logOf()), sandpiper, SET);
    expectWithin(of(units, "d"), UNIT.d, 0.05);
    for (const gain of ["p", "i"]) {
      expect(of(units, gain).value).toBeNull();
      expect(of(units, gain).why).toMatch(/^no commanded rate in the log/);
    }
  });

  it("tells not even of D where it is slower than the loop as well", () => {
    const units = fittedUnits(withoutCommand(logOf({ every: 5 })), sandpiper, SET);
    expect(units.every(({ value }) => value === null)).toBe(true);
    expect(of(units, "d").why).toContain("800 rows a second");
  });

  it("tells nothing where the sticks rested, or a rotor's duty is missing", () => {
    const still = fittedUnits(logOf({ command: {}, every: 5, seconds: 3 }), sandpiper, SET);
    expect(still.map(({ value }) => value)).toEqual(still.map(() => null));
    expect(of(still, "p").why).toBe("the sticks hardly moved");
    const log = logOf({ every: 5, seconds: 3 });
    const missing = fittedUnits({ ...log, duty: [null, ...log.duty.slice(1)] }, sandpiper, SET);
    expect(of(missing, "p").why).toContain("no duty of every rotor");
  });

  it("leaves out what is cut off at the limits of the duties", () => {
    const hard = logOf({
      command: { roll: [...thereAndBack(0.5, 1500), ...thereAndBack(3, 300), ...thereAndBack(5.5, -300)] },
    });
    const cut = hard.duty.some((column) => column?.some((duty) => duty >= 1 || duty <= 0.0601));
    expect(cut).toBe(true);
    const [{ value }] = fittedUnits(hard, sandpiper, { roll: own(2400, 1760) }).filter(({ gain }) => gain === "p");
    expect(value?.middle ?? 0).toBeCloseTo(UNIT.p, 5);
  });
});

describe("the regression against a loop that is not ours", () => {
  // y[k+1] = y[k] + b u[k] + w, u = P e + I sum - D slope, no filters, 1 kHz; every row logged with a quantised duty.
  const RATE = 1000;
  const bare: Airframe = {
    ...sandpiper,
    sensing: { ...sandpiper.sensing, lowPass: [] },
    controller: { ...sandpiper.controller, rate: RATE, latency: 0, derivativeFilter: [] },
  };

  it("gives its gains back", () => {
    const [p, i, d] = [0.06, 0.3, 0.0008];
    const source = stream("a plain loop");
    const count = 12_000;
    const columns = [0, 1, 2].map(() => new Float64Array(count));
    const [rate, command, answer] = columns;
    let [y, sum, before] = [0, 0, 0];
    for (let k = 0; k < count; k++) {
      const c = k % 900 < 300 ? 4 : k % 900 < 600 ? -4 : 0;
      const error = c - y;
      sum += error / RATE;
      const u = Math.round((p * error + i * sum - d * (y - before) * RATE) * 65_535) / 65_535;
      rate[k] = y;
      command[k] = c;
      answer[k] = u;
      before = y;
      y += 0.4 * u + 0.02 * (uniform(source) - 0.5);
    }
    const log: FlightLog = {
      ...logOf({ seconds: 1, noise: false }),
      time: Float64Array.from({ length: count }, (_, k) => k / RATE),
      rate: { roll: rate, pitch: null, yaw: null },
      command: { roll: command, pitch: null, yaw: null },
      duty: [new Float64Array(count).fill(0.5)],
      stretches: [{ from: 0, to: count }],
      step: 1 / RATE,
    };
    const found = actingGains(log, bare, "roll", {
      command: answer,
      throttle: new Float64Array(count).fill(0.5),
      rotors: [],
    });
    expect(found.behind).toBe(0);
    for (const [gain, truth] of [
      [found.p, p],
      [found.i, i],
      [found.d, d],
    ] as const)
      expect(Math.abs((gain?.value ?? 0) / truth - 1)).toBeLessThan(0.003);
  });
});
