// What is left of a rate by frequency, against closed forms; rotors by their places; what to listen for.
import { describe, expect, it } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { leftWords, listenWords } from "../../src/page/trial/listen-words.js";
import { rotorNames } from "../../src/page/trial/rotor-lanes.js";
import { rotorBands, spectrumOf } from "../../src/page/trial/spectrum.js";
import type { Trial } from "../../src/page/trial/trial.js";

const PERIOD = 1 / 4000; // s
const trace = (seconds: number, rate: (t: number) => number) =>
  Float64Array.from({ length: Math.round(seconds / PERIOD) }, (_, k) => rate(k * PERIOD));
const sine =
  (amplitude: number, hertz: number, phase = 0.7) =>
  (t: number) =>
    amplitude * Math.sin(2 * Math.PI * hertz * t + phase);
const whole = (of: Float64Array) => ({ from: 0, to: of.length });

describe("what is left of a rate", () => {
  it.each([
    [16, 0.85],
    [76.3, 0.9],
    [181, 1.3],
  ])("a steady sine of %s Hz reads its amplitude, its rms and its place", (hertz, seconds) => {
    const rate = trace(seconds, sine(0.2, hertz));
    const { amplitude, step, loop, rotors } = spectrumOf(rate, whole(rate), PERIOD, []);
    const nearest = amplitude[Math.round(hertz / step)] as number;
    expect(nearest).toBeGreaterThan(0.198);
    expect(nearest).toBeLessThan(0.2005);
    expect(loop.rms).toBeCloseTo(0.2 / Math.SQRT2, 3);
    expect(Math.abs(loop.strongest - hertz)).toBeLessThan(2 * step);
    expect(rotors.rms).toBe(0);
  });

  it("the rotors' lines and the loop's swing keep apart, each with its own rms", () => {
    const rate = trace(1, (t) => sine(0.2, 16)(t) + sine(0.05, 181)(t) + sine(0.03, 362)(t) + 4 - 3 * t);
    const speeds = [Float64Array.of(2 * Math.PI * 179), Float64Array.of(2 * Math.PI * 183)];
    const bands = rotorBands(speeds, { from: 0, to: 1 }, [1, 2, 2]);
    expect(bands).toHaveLength(2);
    const { loop, rotors, lines } = spectrumOf(rate, whole(rate), PERIOD, bands);
    expect(loop.rms).toBeCloseTo(0.2 / Math.SQRT2, 3);
    expect(rotors.rms).toBeCloseTo(Math.hypot(0.05, 0.03) / Math.SQRT2, 3);
    expect(loop.strongest).toBeCloseTo(16, 0);
    expect(rotors.strongest).toBeCloseTo(181, 0);
    expect(lines[0]?.from).toBeLessThan(179 * 0.97);
    expect(lines[0]?.to).toBeGreaterThan(183 * 1.03);
  });

  it("a straight drift is none of it", () => {
    const rate = trace(0.9, (t) => 5 + 7 * t);
    expect(spectrumOf(rate, whole(rate), PERIOD, []).loop.rms).toBeLessThan(1e-9);
  });

  it("of rotors that were not simulated so far there are no bands", () => {
    expect(rotorBands([], { from: 0, to: 10 }, [1])).toEqual([]);
    expect(rotorBands([new Float64Array(3)], { from: 3, to: 9 }, [1])).toEqual([]);
  });

  it("is said with the rotors' share beside it", () => {
    const rate = trace(1, (t) => sine(0.02, 16)(t) + sine(0.09, 181)(t));
    const of = (bands: ReturnType<typeof rotorBands>) =>
      leftWords(spectrumOf(rate, whole(rate), PERIOD, bands)).replaceAll("\u00a0", " ");
    expect(of([{ from: 170, to: 190 }])).toMatch(
      /^Left at the end: 0\.811 °\/s rms of the loop itself, strongest at 16(?:\.1)? Hz; 3\.65 °\/s rms of the rotors' vibration, at 168 to 192 Hz\. Most of it is the rotors' vibration, not the loop\.$/,
    );
    expect(of([])).toMatch(/^Left at the end: 3\.7\d °\/s rms of the loop itself, strongest at 181 Hz\.$/);
  });
});

describe("rotors", () => {
  it.each([
    ["a cross", [45, 135, 225, 315], ["1 front left", "2 rear left", "3 rear right", "4 front right"]],
    [
      "six",
      [30, 90, 150, 210, 270, 330],
      ["1 front left", "2 left", "3 rear left", "4 rear right", "5 right", "6 front right"],
    ],
    ["a plus", [0, 180], ["1 front", "2 rear"]],
  ] as const)("of %s are named by their places", (_, angles, names) => {
    const rotors = angles.map((degrees) => {
      const angle = (Math.PI / 180) * degrees;
      return { at: [0.1 * Math.cos(angle), 0.1 * Math.sin(angle), 0.02] as const, spin: 1 as const };
    });
    expect(rotorNames({ rotors })).toEqual(names);
  });
});

describe("what to listen for", () => {
  const rate = trace(1, sine(0.2, 9));
  const heard = (
    outcome: Trial["outcome"],
    hertz: number,
    kind: Parameters<typeof listenWords>[0]["kind"] = "stop",
  ) => {
    const measures = Object.fromEntries(MEASURE_IDS.map((id) => [id, id === "rebounds" ? 3 : null]));
    const spectrum = spectrumOf(rate, whole(rate), PERIOD, []);
    const trial = { outcome, measures, absent: {} } as unknown as Trial;
    const loop = { ...spectrum.loop, strongest: hertz };
    return listenWords({ kind, trial, spectrum: { ...spectrum, loop }, turning: 177, blades: 3 }).replaceAll(
      "\u00a0",
      " ",
    );
  };

  it("is the note that belongs there, and beside it the loop", () => {
    expect(heard("dies out", 9)).toMatch(
      /blades passing, 531 a second \(the rotors turn 177 times\): it belongs there/,
    );
    expect(heard("dies out", 9)).toMatch(/one clean swoop .* Here there are 3\.$/);
    expect(heard("sustained", 9)).toMatch(/a waver on it, 9 times a second, that goes on/);
    expect(heard("sustained", 76)).toMatch(/a growl on it, 76 Hz, that goes on/);
    const kinds = ["nudge", "stop", "blip", "wobble", "hover"] as const;
    expect(new Set(kinds.map((kind) => heard("dies out", 9, kind))).size).toBe(kinds.length);
  });
});
