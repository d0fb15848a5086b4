// Grids, commands and frequency responses against closed forms.
import { describe, expect, it } from "vitest";
import { mixerOf } from "../../src/airframe/mixer.js";
import { fourier } from "../../src/base/fourier.js";
import { evenPieces } from "../../src/fit/even-grid.js";
import { independentWindows, lineEstimate, type Pair, type Sample } from "../../src/fit/line-estimate.js";
import { ALIKE, measuredResponse } from "../../src/fit/measured-response.js";
import { nearestPowerOfTwo, transformOf } from "../../src/fit/transform.js";
import { commandShares, mixed } from "../../src/flight/axis-commands.js";
import { hexacopter } from "./hexacopter.js";
import { logOf, moves, normals, over, simulated, trueResponse, X_MIXER } from "./simulated-log.js";

describe("the transform", () => {
  const samples = normals(64, "transform");
  const { forward, backward } = transformOf(64);

  it("is the sum that defines it", () => {
    const ours = fourier({ re: samples, im: new Float64Array(64) });
    const half = forward(samples);
    half.re.forEach((re, k) => {
      expect(re).toBeCloseTo(ours.re[k] ?? 0, 12);
      expect(half.im[k]).toBeCloseTo(ours.im[(64 - k) % 64] ?? 0, 12);
    });
  });

  it("comes back", () => {
    backward(forward(samples)).forEach((value, n) => {
      expect(value).toBeCloseTo(samples[n] ?? 0, 13);
    });
  });

  it("takes nothing from the engine's own sines", () => {
    const before = forward(samples);
    const { cos, sin } = Math;
    try {
      Math.cos = (x) => cos(x) * (1 + 1e-6);
      Math.sin = (x) => sin(x) * (1 + 1e-6);
      expect(transformOf(64).forward(samples)).toEqual(before);
    } finally {
      Object.assign(Math, { cos, sin });
    }
  });

  it("chooses the length nearest in ratio", () => {
    expect([1011, 1400, 1500, 2021, 4000, 3].map(nearestPowerOfTwo)).toEqual([1024, 1024, 2048, 2048, 4096, 4]);
  });
});

describe("axis commands from duties", () => {
  it("are those that the mixer was given, whatever the collective", () => {
    const mixer = mixerOf(hexacopter.rotors, hexacopter.centreOfMass);
    const [roll, pitch, yaw] = [0.11, -0.07, 0.03];
    const duties = mixer.roll.map((share, k) =>
      Float64Array.of(0.4 + share * roll + (mixer.pitch[k] ?? 0) * pitch + (mixer.yaw[k] ?? 0) * yaw),
    );
    const back = (["roll", "pitch", "yaw"] as const).map((axis) => mixed(duties, commandShares(mixer, axis))[0]);
    [roll, pitch, yaw].forEach((value, k) => {
      expect(back[k]).toBeCloseTo(value, 10);
    });
  });

  it("are a quarter of the sum with signs where the rotors stand in an X", () => {
    expect(commandShares(X_MIXER, "pitch")).toEqual([-0.25, 0.25, 0.25, -0.25]);
  });
});

describe("the even grid", () => {
  const jitter = normals(1000, "jitter");
  const time = jitter.map((value, n) => 0.001 * n + 1e-4 * Math.tanh(value));
  const log = {
    ...logOf({ step: 0.001, rate: time, command: time, wanted: null }),
    time,
    rate: { roll: time.map((t) => 3 - 2 * t), pitch: null, yaw: null },
  };
  const rate = log.rate.roll;

  it("keeps straight lines through jitter", () => {
    const [piece] = evenPieces(log, [rate]);
    expect(piece?.length).toBeGreaterThan(990);
    piece?.channels[0]?.forEach((value, n) => {
      expect(value).toBeCloseTo(3 - 2 * ((piece?.from ?? 0) + n * 0.001), 12);
    });
  });

  it("ends at a hole, bridges two lost rows, leaves out what is kept apart and rows without a number", () => {
    const holes = rate.map((value, n) => (n === 200 || n === 201 || (n > 400 && n < 410) ? Number.NaN : value));
    const pieces = evenPieces(log, [holes], { apart: { from: 0.6, to: 0.7 } });
    expect(pieces.map(({ from, length, step }) => [from, from + (length - 1) * step])).toEqual([
      [expect.closeTo(0, 3), expect.closeTo(0.4, 2)],
      [expect.closeTo(0.41, 2), expect.closeTo(0.6, 2)],
      [expect.closeTo(0.7, 2), expect.closeTo(1, 2)],
    ]);
  });
});

describe("a line's estimate", () => {
  const drawn = (count: number, noise: number, seed: number): Sample[] => {
    const n = normals(4 * count, "line", seed);
    return Array.from({ length: count }, (_, k) => {
      const u: Pair = [n[4 * k] ?? 0, n[4 * k + 1] ?? 0];
      const v: Pair = [noise * (n[4 * k + 2] ?? 0), noise * (n[4 * k + 3] ?? 0)];
      return { command: u, rate: [3 * u[0] + v[0], 3 * u[1] + v[1]], instrument: u };
    });
  };

  it("counts half overlapping windows under Hann's taper as Welch does", () => {
    // n / (1 + 2 (1/6)^2 (1 - 1/n)), P.D. Welch 1967, from memory
    expect(independentWindows(10)).toBeCloseTo(10 / 1.05, 12);
  });

  it("has the error of Bendat and Piersol's formula, and the scatter to show for it", () => {
    const found = Array.from({ length: 400 }, (_, seed) => lineEstimate(drawn(40, 2, seed)));
    const average = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
    const coherence = 9 / (9 + 4);
    // Random Data: sqrt(1 - c) / (sqrt(c) sqrt(2 n)); from memory. Windows here do not overlap.
    const formula = Math.sqrt((1 - coherence) / (coherence * 2 * 40));
    const seen = Math.sqrt(average(found.map(({ value }) => ((value[0] / 3 - 1) ** 2 + (value[1] / 3) ** 2) / 2)));
    const wider = Math.sqrt(40 / (independentWindows(40) - 1));
    expect(seen / formula).toBeGreaterThan(0.95);
    expect(seen / formula).toBeLessThan(1.08);
    expect(average(found.map(({ error }) => error)) / (formula * wider)).toBeCloseTo(1, 1);
    expect(average(found.map(({ scatter }) => scatter)) / (formula * wider)).toBeCloseTo(1, 1);
    expect(average(found.map((one) => one.coherence))).toBeCloseTo(coherence, 1);
  });
});

describe("the response of a simulated axis", () => {
  const axis = { authority: 1400, lag: 0.063, delaySteps: 1 };
  const step = 0.004;

  it("lies about its closed form, 95 of 100 within two standard deviations, over 200 logs", {
    timeout: 120_000,
  }, () => {
    const counts = { inside: 0, all: 0 };
    for (let seed = 0; seed < 200; seed++) {
      const count = 6000;
      const wanted = moves(count, step, 0.05, 1, 10, "open", seed);
      const torque = normals(count, "torque", seed).map((value) => 10 * value);
      // No loop: the command is the wanted rate, and the instrument.
      const motion = simulated(axis, null, step, wanted, torque, new Float64Array(count));
      const [found] = measuredResponse(logOf(motion), X_MIXER, "roll");
      expect(found?.method).toBe("commanded rate");
      found?.frequencies.forEach((w, k) => {
        const [re, im] = over([found.value.re[k] ?? 0, found.value.im[k] ?? 0], trueResponse(axis, step, w));
        const deviation = (found.error[k] ?? 0) / ALIKE;
        for (const off of [re - 1, im]) {
          counts.all++;
          if (Math.abs(off) < 2 * deviation) counts.inside++;
        }
      });
    }
    expect(counts.all).toBeGreaterThan(5000);
    expect(counts.inside / counts.all).toBeGreaterThan(0.93);
    expect(counts.inside / counts.all).toBeLessThan(0.99);
  });
});
