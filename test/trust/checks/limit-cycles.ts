// Saturated limit cycles of the loop itself against describing functions, and against simulations made elsewhere.
import { lowPassStage } from "../../../src/airframe/filter.js";
import * as m from "../../../src/kernel/memory.js";
import { integrator, motorsAndFilter, type PlainLoop, simulated } from "../../kernel/plain-loops.js";
import { alike, type Group } from "../check.js";

const PERIOD = 5e-4; // s

/** Amplitude and period (s) of the last cycles of a trace. */
function cycle(trace: ArrayLike<number>, period: number): { readonly amplitude: number; readonly period: number } {
  const from = Math.floor(0.6 * trace.length);
  const crossings: number[] = [];
  let [low, high] = [Infinity, -Infinity];
  for (let k = from; k + 1 < trace.length; k++) {
    [low, high] = [Math.min(low, trace[k]), Math.max(high, trace[k])];
    if (trace[k] < 0 && trace[k + 1] >= 0) crossings.push(k + trace[k] / (trace[k] - trace[k + 1]));
  }
  const cycles = crossings.length - 1;
  return { amplitude: (high - low) / 2, period: ((crossings[cycles] - crossings[0]) * period) / cycles };
}

/** A trace through one filter stage: what the controller sees of it. */
function through([b0, b1, b2, a1, a2]: readonly number[], trace: Float64Array): Float64Array {
  let [z1, z2] = [0, 0];
  return trace.map((x) => {
    const y = b0 * x + z1;
    [z1, z2] = [b1 * x - a1 * y + z2, b2 * x - a2 * y];
    return y;
  });
}

/**
 * Saturation at one half around 1/(s (s + 1)) and the low-pass b/(s + b): the plant 1/(s (s + 1) (s + b)) of the books, where
 * the limit is 1, with b/2 times its amplitude at b/2 times less gain.
 */
function saturated(b: number, gain: number): ReturnType<typeof cycle> {
  const key = `${b} ${gain}`;
  const found = cache.get(key) ?? saturatedAnew(b, gain);
  cache.set(key, found);
  return found;
}

const cache = new Map<string, ReturnType<typeof cycle>>();

function saturatedAnew(b: number, gain: number): ReturnType<typeof cycle> {
  const stage = lowPassStage({ order: 1, cutoff: b / (2 * Math.PI) }, 1 / PERIOD);
  const loop = motorsAndFilter(1, stage, PERIOD);
  const trace = simulated(loop, { p: gain / (b * 0.5) / 2, steps: 160_000, kick: 0.1 });
  const filteredCycle = cycle(through(stage, trace), PERIOD);
  return { amplitude: filteredCycle.amplitude / (b * 0.5), period: filteredCycle.period };
}

const FINE = 2.5e-4; // s
const COARSE = 2e-3; // s, where the steps of the other simulation show: its figures are those of this period, not of none

/** 1/(s^2 + 0.2 s + 1) by the bilinear transform. */
function resonance(period: number): number[] {
  const k = 2 / period;
  const [a0, a1, a2] = [k * k + 0.2 * k + 1, 2 - 2 * k * k, k * k - 0.2 * k + 1];
  return [1 / a0, 2 / a0, 1 / a0, a1 / a0, a2 / a0];
}

function withFilter(loop: PlainLoop, stage: readonly number[]): PlainLoop {
  const shape = { ...loop.shape, sensorStages: 1 };
  const craft = new Float64Array(m.craftLength(shape));
  craft.set(loop.craft);
  craft.set(stage, m.CRAFT_SIZE + shape.rotors * m.ROTOR_WIDTH);
  return { ...loop, craft, shape };
}

/**
 * Limit 0.1 and gain 0.5 around the integrator and the resonance; here the limit is 0.5, all amplitudes five times. The
 * resonance makes much of half a period's delay: every millisecond lengthens the cycle by 0.005 %.
 */
function resonant(period: number): ReturnType<typeof cycle> {
  const key = `resonant ${period}`;
  const found = cache.get(key) ?? resonantAnew(period);
  cache.set(key, found);
  return found;
}

function resonantAnew(period: number): ReturnType<typeof cycle> {
  const stage = resonance(period);
  const loop = withFilter(integrator(0, period), stage);
  const trace = simulated(loop, { p: 0.5, steps: Math.round(400 / period), kick: 1 });
  const filteredCycle = cycle(through(stage, trace), period);
  return { amplitude: filteredCycle.amplitude / 5, period: filteredCycle.period };
}

/** Gain of the mixer's limit for the first harmonic of a sine `over` times the limit: the loop open, the filter shut. */
function harmonicGain(over: number): number {
  const CYCLE = 1000; // periods
  const loop = withFilter(integrator(0, 1), [0, 0, 0, 0, 0]);
  const steps = 3 * CYCLE + 1;
  const command = (k: number) => 0.5 * over * Math.sin((2 * Math.PI * k) / CYCLE);
  const trace = simulated(loop, { p: 1, steps, kick: 0, command });
  let sine = 0;
  for (let k = CYCLE; k + 1 < steps; k++) sine += (trace[k + 1] - trace[k]) * Math.sin((2 * Math.PI * k) / CYCLE);
  return sine / CYCLE / (0.5 * over);
}

const GELB = "A. Gelb and W.E. Vander Velde, Multiple-Input Describing Functions (1968)";
const FRANKLIN = "G. Franklin, J.D. Powell and A. Emami-Naeini, Feedback Control of Dynamic Systems, fig. 9.16";

export const LIMIT_CYCLES: Group = {
  title: "Limit cycles",
  checks: [
    ...alike(
      { source: `${GELB}: saturation`, status: "quoted; recomputed", unit: "", within: { share: 2e-5 } },
      [1, 1.5, 2, 3, 5, 10].map((over, k) => [
        `first harmonic through the mixer's limit, ${over} times over`,
        [1, 0.780898, 0.608998, 0.416417, 0.25294, 0.127111][k],
        () => harmonicGain(over),
      ]),
    ),
    ...alike(
      { kind: "approximation", source: "describing function", status: "recomputed", unit: "", within: { share: 0.1 } },
      [
        ["1/(s(s+1)(s+2)), gain 12, limit 1: amplitude", 0.2062845, () => saturated(2, 12).amplitude],
        ["1/(s(s+1)(s+2)), gain 12, limit 1: period, s", 4.442883, () => saturated(2, 12).period],
        ["1/(s(s+1)(s+2)), gain 8, limit 1: amplitude", 0.196942, () => saturated(2, 8).amplitude],
        ["1/(s(s+1)(s+5)), gain 60, limit 1: amplitude", 0.0412569, () => saturated(5, 60).amplitude],
      ],
    ),
    ...alike({ source: "the same, simulated elsewhere", status: "recomputed", unit: "", within: { share: 1e-4 } }, [
      ["1/(s(s+1)(s+2)), gain 12, limit 1: amplitude", 0.21071, () => saturated(2, 12).amplitude],
      ["1/(s(s+1)(s+2)), gain 12, limit 1: period, s", 4.5051, () => saturated(2, 12).period],
      ["1/(s(s+1)(s+2)), gain 8, limit 1: amplitude", 0.19883, () => saturated(2, 8).amplitude],
      ["1/(s(s+1)(s+2)), gain 8, limit 1: period, s", 4.4684, () => saturated(2, 8).period],
      ["1/(s(s+1)(s+5)), gain 60, limit 1: amplitude", 0.04246, () => saturated(5, 60).amplitude],
      ["1/(s(s+1)(s+5)), gain 60, limit 1: period, s", 2.8632, () => saturated(5, 60).period],
    ]),
    ...alike(
      {
        kind: "approximation",
        source: `describing function, ${FRANKLIN} (gain from memory)`,
        status: "from memory; recomputed",
        unit: "",
        within: { share: 0.005 },
      },
      [
        ["1/(s(s^2+0.2s+1)), gain 0.5, limit 0.1: amplitude", 0.6256, () => resonant(FINE).amplitude],
        ["1/(s(s^2+0.2s+1)), gain 0.5, limit 0.1: period, s", 2 * Math.PI, () => resonant(FINE).period],
      ],
    ),
    ...alike({ source: "the same by SciPy's solve_ivp", status: "recomputed", unit: "", within: { share: 1e-4 } }, [
      ["1/(s(s^2+0.2s+1)), gain 0.5, limit 0.1: amplitude", 0.625815, () => resonant(FINE).amplitude],
      ["1/(s(s^2+0.2s+1)), gain 0.5, limit 0.1: period, s", 6.284577, () => resonant(FINE).period],
    ]),
    ...alike({ source: "the same, simulated elsewhere", status: "recomputed", unit: "", within: { share: 1e-4 } }, [
      ["1/(s(s^2+0.2s+1)), limit 0.1, steps of 2 ms: amplitude", 0.62595, () => resonant(COARSE).amplitude],
      ["1/(s(s^2+0.2s+1)), limit 0.1, steps of 2 ms: period, s", 6.2852, () => resonant(COARSE).period],
    ]),
  ],
};
