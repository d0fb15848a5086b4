// Gusts: the pulse's shape, and variance, correlation and spectrum of the turbulence that rotors meet.
import { pulse, rotaryRms, turbulence } from "../../../src/kernel/gusts.js";
import { alike, type Group } from "../check.js";

const RMS = 1.5; // m/s
const SCALE = 2; // m
const WIND = 10; // m/s
const gust = { kind: "turbulence", from: 0, to: 1e9, rms: RMS, scale: SCALE, speed: WIND } as const;

/** A record with steps of `a` scale lengths. */
const record = (a: number, steps: number, name: string) =>
  turbulence(gust, { steps, period: (a * SCALE) / WIND }, ["trust", name]);

function moment(values: Float64Array, lag = 0): number {
  let sum = 0;
  for (let k = 0; k + lag < values.length; k++) sum += values[k] * values[k + lag];
  return sum / (values.length - lag);
}

const N = 400_000;
const cache = new Map<string, ReturnType<typeof record>>();
function once(a: number, name: string): ReturnType<typeof record> {
  const found = cache.get(name) ?? record(a, N, name);
  cache.set(name, found);
  return found;
}

/** One-sided density over spatial frequency (rad/m) about W L = x, over sigma^2 L/pi: averaged periodograms. */
function density(x: number): number {
  const a = 0.05;
  const values = once(a, "spectrum").vertical;
  const [length, around] = [2048, 3];
  const middle = Math.round((x * a * length) / (2 * Math.PI));
  let sum = 0;
  let count = 0;
  for (let from = 0; from + length <= values.length; from += length) {
    for (let bin = middle - around; bin <= middle + around; bin++) {
      let [re, im] = [0, 0];
      for (let k = 0; k < length; k++) {
        const angle = (2 * Math.PI * ((bin * k) % length)) / length;
        // A raised cosine keeps the strong low frequencies out of the weak ones; its mean square is 3/8.
        const value = (1 - Math.cos((2 * Math.PI * k) / length)) * 0.5 * values[from + k];
        re += value * Math.cos(angle);
        im -= value * Math.sin(angle);
      }
      sum += (re * re + im * im) / length / 0.375;
      count++;
    }
  }
  // Sum over one side is the variance: density per radian of w T is |X|^2/(pi n), per W L that times a.
  return ((sum / count) * a) / Math.PI / ((RMS * RMS) / Math.PI);
}

const dryden = (x: number): number => (1 + 3 * x * x) / (1 + x * x) ** 2;

const GUST = { kind: "pulse", at: 0, peak: 4, length: 2, speed: 10 } as const;
const shape = pulse(GUST, { steps: 2001, period: 1e-4 }).vertical;
const mean = (of: (w: number) => number) => shape.reduce((sum, w) => sum + of(w / GUST.peak), 0) / 2000;

const DRYDEN = "MIL-F-8785C, 3.7.1.2, as in the documentation of the Modelica Standard Library";
const CORRELATION = "H.L. Dryden (1943); von Karman and Howarth: exp(-r/L)(1 - r/2L)";

export const TURBULENCE: Group = {
  title: "Gusts and turbulence",
  checks: [
    ...alike(
      {
        source: "14 CFR 25.341: one minus cosine",
        status: "from memory; recomputed",
        unit: "",
        within: { unit: 1e-6 },
      },
      [
        ["pulse at a quarter of its rise, share of the peak", 0.1464466, () => shape[250] / GUST.peak],
        ["pulse at half its rise, share of the peak", 0.5, () => shape[500] / GUST.peak],
        ["pulse at its middle, share of the peak", 1, () => shape[1000] / GUST.peak],
        ["mean of the pulse, share of the peak", 0.5, () => mean((w) => w)],
        ["mean square of the pulse, share of the peak's", 0.375, () => mean((w) => w * w)],
      ],
    ),
    // Four standard deviations of the sampling error (Bartlett), as for a first-order record of the same length.
    ...alike(
      {
        kind: "statistic",
        source: `${DRYDEN}: the spectrum's integral`,
        status: "seen in a document",
        unit: "",
        within: { share: 0.03 },
      },
      [
        [
          "variance of the vertical gust over rms^2, steps of 0.1 L",
          1,
          () => moment(once(0.1, "fine").vertical) / RMS ** 2,
        ],
        [
          "variance of the vertical gust over rms^2, steps of 0.5 L",
          1,
          () => moment(once(0.5, "coarse").vertical) / RMS ** 2,
        ],
      ],
    ),
    ...alike(
      {
        kind: "statistic",
        source: "Ornstein-Uhlenbeck, exact at any step (Euler's form: 1.33 at 0.5 L)",
        status: "recomputed",
        unit: "",
        within: { share: 0.03 },
      },
      [
        [
          "variance of the rotary gust over its own, steps of 0.1 L",
          1,
          () => moment(once(0.1, "fine").rotary) / rotaryRms(gust) ** 2,
        ],
        [
          "variance of the rotary gust over its own, steps of 0.5 L",
          1,
          () => moment(once(0.5, "coarse").rotary) / rotaryRms(gust) ** 2,
        ],
      ],
    ),
    ...alike(
      { kind: "statistic", scale: 1, source: CORRELATION, status: "recomputed", unit: "", within: { unit: 0.02 } },
      [
        [
          "correlation of the vertical gust over half a scale length",
          0.454898,
          () => moment(once(0.1, "fine").vertical, 5) / RMS ** 2,
        ],
        ["correlation over one scale length", 0.18394, () => moment(once(0.1, "fine").vertical, 10) / RMS ** 2],
        ["correlation over two scale lengths", 0, () => moment(once(0.1, "fine").vertical, 20) / RMS ** 2],
        ["correlation over three scale lengths", -0.024894, () => moment(once(0.1, "fine").vertical, 30) / RMS ** 2],
      ],
    ),
    ...alike(
      {
        kind: "statistic",
        source: `${DRYDEN}: (1 + 3x^2)/(1 + x^2)^2`,
        status: "seen in a document",
        unit: "",
        within: { share: 0.1 },
      },
      [
        ["spectrum of the vertical gust at x = 0.5", dryden(0.5), () => density(0.5)],
        ["spectrum of the vertical gust at x = 2", dryden(2), () => density(2)],
        ["spectrum of the vertical gust at x = 8", dryden(8), () => density(8)],
      ],
    ),
  ],
};
