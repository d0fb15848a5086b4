// What a log shows by itself, against logs of the kernel whose noise, lines and wash are set, and against signals that are not
// ours: white noise whose density has a closed form (sigma over the root of half the rate), a sine of known amplitude.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../../src/airframe/craft.js";
import { fillGaussian, stream } from "../../src/base/random.js";
import { bandBins, unitBursts } from "../../src/fit/burst-spectrum.js";
import type { ReadNumber } from "../../src/fit/read-number.js";
import { readNumbers } from "../../src/fit/read-numbers.js";
import { folded, hoverSpeeds } from "../../src/fit/rotor-lines.js";
import { sensorNumbers } from "../../src/fit/sensor-noise.js";
import type { FlightLog } from "../../src/flight/log.js";
import { readAirframe } from "../../src/flow/read.js";
import { hiddenCraft } from "../demonstration/hidden-craft.mjs";
import { hiddenLog } from "../demonstration/hidden-log.mjs";
import { type SimulatedFlight, simulateLog } from "../demonstration/simulate-log.mjs";
import { thereAndBack } from "../fixtures/moves.js";
import { flightLogOf } from "../fixtures/simulated-flight-log.js";

const DEGREE = Math.PI / 180;
const sandpiper = readAirframe("models/sandpiper-r1.yaml").value;
const { scale, roll } = sandpiper.controller;
const acting = { p: 2300 * (scale?.p ?? 0), i: roll.i, d: 1680 * (scale?.d ?? 0) };
const FLIGHT: SimulatedFlight = {
  seconds: 8,
  gains: { roll: acting, pitch: acting },
  command: { roll: thereAndBack(1, 300), pitch: thereAndBack(3, -250) },
};

const of = (numbers: readonly ReadNumber[], key: string): ReadNumber => {
  const found = numbers.find((one) => one.key === key);
  if (found === undefined) throw new Error(`no ${key}`);
  return found;
};

function expectRead(numbers: readonly ReadNumber[], key: string, truth: number, within: number): void {
  const { value, why } = of(numbers, key);
  if (value === null) throw new Error(`${key}: ${why}`);
  expect([key, value.low <= truth && truth <= value.high, value]).toEqual([key, true, value]);
  expect(value.high / value.low).toBeLessThan((1 + within) ** 2);
}

describe("noise and lines of a simulated log", () => {
  const CASES = [
    { every: 1, density: 0.01, lines: [0.8, 0.4] },
    { every: 4, density: 0.02, lines: [2, 1] },
    { every: 8, density: 0.006, lines: [0.5, 1.5] },
  ];
  it.each(CASES)(
    "are got back from every $every-th period at $density and $lines deg/s",
    ({ every, density, lines }) => {
      const airframe: Airframe = {
        ...sandpiper,
        sensing: {
          ...sandpiper.sensing,
          noiseDensity: density * DEGREE,
          vibration: lines.map((size, k) => ({ harmonic: k + 1, atHover: size * DEGREE })),
        },
      };
      const log = simulateLog(airframe, { ...FLIGHT, every });
      for (const rotorSpeed of [true, false]) {
        const numbers = sensorNumbers(flightLogOf(log, { rotorSpeed: !rotorSpeed }), airframe);
        expectRead(numbers, "sensing.noise", density * DEGREE, 0.1);
        for (const [k, size] of lines.entries())
          expectRead(numbers, `sensing.vibration[${k}].at_hover`, size * DEGREE, 0.35);
      }
    },
  );

  it("are found though the rotors turn slower than the model says", () => {
    const slower = { ...sandpiper, motor: { ...sandpiper.motor, resistance: 1.5 * sandpiper.motor.resistance } };
    const log = simulateLog(slower, { ...FLIGHT, every: 4 });
    const numbers = sensorNumbers(flightLogOf(log, { rotorSpeed: true }), sandpiper);
    expectRead(numbers, "sensing.vibration[0].at_hover", 0.8 * DEGREE, 0.35);
  });

  it("are bounded from above where there are none", () => {
    const still = { ...sandpiper, sensing: { ...sandpiper.sensing, vibration: [] } };
    const numbers = sensorNumbers(flightLogOf(simulateLog(still, { ...FLIGHT, every: 4 })), sandpiper);
    for (const key of ["sensing.vibration[0].at_hover", "sensing.vibration[1].at_hover"]) {
      const { value, why } = of(numbers, key);
      expect(value?.low).toBe(0);
      expect(value?.high).toBeLessThan(0.2 * DEGREE);
      expect(why).toContain("not seen above the noise");
    }
  });
});

describe("noise and lines of signals that are not ours", () => {
  const RATE = 4000;
  const hover = hoverSpeeds(sandpiper);
  const signal = (at: (k: number) => number): FlightLog => {
    const count = 8 * RATE;
    const white = new Float64Array(count);
    fillGaussian(white, stream("white"));
    const rate = white.map((value, k) => 0.4 * DEGREE * value + at(k));
    return {
      time: white.map((_, k) => k / RATE),
      rate: { roll: rate, pitch: null, yaw: null },
      command: { roll: null, pitch: null, yaw: null },
      duty: sandpiper.rotors.map(() => new Float64Array(count).fill(0.35)),
      throttle: null,
      voltage: null,
      rotorSpeed: sandpiper.rotors.map((_, i) => new Float64Array(count).fill(hover?.speeds[i] ?? 0)),
      stretches: [{ from: 0, to: count }],
      step: 1 / RATE,
      remarks: [],
    };
  };

  it("reads white noise of 0.4 deg/s at 4 kHz as 0.4 over the root of 2000 Hz", () => {
    expectRead(
      sensorNumbers(
        signal(() => 0),
        sandpiper,
      ),
      "sensing.noise",
      (0.4 * DEGREE) / Math.sqrt(2000),
      0.05,
    );
  });

  it("reads a sine of 2 deg/s as one of four rotors that each have 1 deg/s", () => {
    // four lines of 1 deg/s have the power of one of 2
    const log = signal((k) => 2 * DEGREE * Math.sin((hover?.speeds[0] ?? 0) * (k / RATE)));
    expectRead(sensorNumbers(log, sandpiper), "sensing.vibration[0].at_hover", DEGREE, 0.15);
  });

  it("folds a frequency as rows so many a second show it", () => {
    expect([349, 174, 500, 720].map((f) => folded(f, 500))).toEqual([151, 174, 0, 220]);
  });
});

describe("size of the wash", () => {
  it.each([0.08, 0.134, 0.24])("is got back from the hidden craft's descent at an rms of %d", (rms) => {
    const craft: Airframe = { ...hiddenCraft(), wash: { ...sandpiper.wash, rms } };
    const numbers = readNumbers(flightLogOf(hiddenLog(craft)), craft);
    expectRead(numbers, "wash.rms", rms, 0.5);
  });

  it("is not told by a log that has no descent, no commanded rates or no duties", () => {
    const log = flightLogOf(simulateLog(sandpiper, { ...FLIGHT, every: 8 }));
    expect(of(readNumbers(log, sandpiper), "wash.rms").why).toContain("the log has no descent");
    const { command: _, ...rest } = log;
    const blind = { ...rest, command: { roll: null, pitch: null, yaw: null } };
    expect(of(readNumbers(blind, sandpiper), "wash.rms").why).toContain("no commanded rate");
    const dutiless = { ...log, duty: log.duty.map(() => null) };
    expect(of(readNumbers(dutiless, sandpiper), "wash.rms").value).toBeNull();
    expect(of(readNumbers(log, sandpiper), "wash.loss").value).toBeNull();
  });

  it("expects of bursts what white noise through two equal poles has: unit variance", () => {
    // integral of (8/a)/(1 + (w/a)^2)^2 over f is 1; up to w = a x it is (2/pi)(atan x + x/(1 + x^2)), recomputed here
    const craft = craftUnder(sandpiper, STANDARD_DAY);
    const step = 0.002;
    const bins = bandBins(8192, step);
    const powers = unitBursts(craft, "roll", 0.35, bins);
    const spacing = 1 / (8192 * step);
    const sum = powers.reduce(
      (total, power) => total + power * spacing,
      -0.5 * (powers[0] + powers[powers.length - 1]) * spacing,
    );
    const at = (w: number, pole: number) => {
      const x = w / pole;
      return (2 / Math.PI) * (Math.atan(x) + x / (1 + x * x));
    };
    const [low, high] = [bins.frequencies[0], bins.frequencies[bins.frequencies.length - 1]];
    const peak = powers[0];
    const ratio = peak / powers[powers.length - 1];
    // the pole follows from the ratio of first and last bin
    const root = Math.sqrt(ratio);
    const pole = Math.sqrt((high * high - root * low * low) / (root - 1));
    const whole = sum / (at(high, pole) - at(low, pole));
    expect((peak * pole * (1 + (low / pole) ** 2) ** 2) / 8 / whole).toBeCloseTo(1, 2);
  });
});
