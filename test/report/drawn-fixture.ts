// The invented map with invented draws: in each the loop's gain is a factor off, as a wrong motor or inertia would make it.
import { shareInterval } from "../../src/base/binomial-interval.js";
import type { AxisConfidence, BandPoint, Uncertainty, Worth } from "../../src/map/confidence-format.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { type Axis, gainUp, inside, interval, LOOPS, reasonsAt, valuesAt } from "./loops.js";

const SPREADS: Uncertainty["spreads"] = [
  { key: "motor.resistance", nominal: 0.075, law: "log-normal", size: 0.3 },
  { key: "frame.parts[6].at[0]", nominal: -0.004, law: "normal", size: 0.002 },
  { key: "frame.parts[6].mass", nominal: 0.198, law: "uniform", size: 0.01 },
  { key: "frame.parts[7].mass", nominal: 0.016, law: "normal", size: 0.0008 },
  { key: "loop gain", nominal: 1, law: "normal", size: 0.1 },
];

const WORTH: readonly Worth[] = [
  { key: "loop gain", gain: 21, error: 0.9 },
  { key: "motor.resistance", gain: 12.4, error: 0.9 },
  { key: "frame.parts[6].at[0]", gain: 3.1, error: 0.9 },
  { key: "frame.parts[6].mass", gain: 0.4, error: 0.9 },
  { key: "frame.parts[7].mass", gain: -0.2, error: 0.9 },
];

const DRAWS = 64;

/** Factors of the loop's gain from 1 / (1 + most) to 1 + most, near 1 more often than far. */
const factors = (most: number): number[] =>
  Array.from({ length: DRAWS }, (_, k) => {
    const at = (2 * ((k * 27) % DRAWS) + 1) / DRAWS - 1;
    return (1 + most) ** (at * Math.abs(at) ** 0.5);
  });

function failureAt(axis: Axis, p: number, d: number): string | null {
  const loop = LOOPS[axis];
  const reasons = reasonsAt(inside(interval(loop, d, 1), p), valuesAt(loop, p, d));
  if (reasons & 1) return "sustained oscillation";
  if (reasons !== 0) return "Bounce-back";
  return (gainUp(loop, p, d) ?? 99) < 6 ? "margins" : null;
}

function confidenceOf(axis: Axis, map: AxisMap, all: readonly number[], confidence: number): AxisConfidence {
  const { p, d } = map.grid;
  const safeDraws = d.map((dGain) =>
    p.map((pGain) => all.filter((f) => failureAt(axis, f * pGain, f * dGain) === null).length),
  );
  const points = p.length * d.length;
  const safe = map.start === null ? 0 : all.filter((f) => startFails(axis, map, f) === null).length;
  return {
    safeDraws,
    safeShare: safeDraws.flat().filter((count) => count >= confidence * DRAWS).length / points,
    band: d.map((dGain): BandPoint => {
      const rising = all.map((f) => boundary(axis, dGain, f)).sort((one, other) => one - other);
      const at = (share: number) => rising[Math.floor(share * DRAWS)] as number;
      return { d: dGain, low: at(0.05), middle: at(0.5), high: at(0.95) };
    }),
    start: map.start === null ? null : { safe, of: DRAWS, interval: shareInterval(safe, DRAWS) },
    worth: WORTH,
    leftOut: { points: 12, trials: 34_567 },
  };
}

const boundary = (axis: Axis, d: number, factor: number): number =>
  (interval(LOOPS[axis], factor * d, 1)?.[1] ?? 1) / factor;

const startFails = (axis: Axis, { start }: AxisMap, factor: number): string | null =>
  start === null ? null : failureAt(axis, factor * start.p, factor * start.d);

/** `most`: how far the gain may be off; `confidence` a fraction. */
export function drawn(map: StabilityMap, { most = 0.35, confidence = 0.95 } = {}): StabilityMap {
  const all = factors(most);
  const axis = (name: Axis): AxisMap => ({
    ...map.axes[name],
    confidence: confidenceOf(name, map.axes[name], all, confidence),
  });
  const ofAxis = (name: Axis, factor: number) => ({
    boundary: map.axes[name].grid.d.map((d) => boundary(name, d, factor)),
    startFailsBy: startFails(name, map.axes[name], factor),
  });
  const draws = all.map((factor, k) => ({
    values: [0.075 / factor, -0.004 + 0.0001 * (k % 20), 0.198, 0.0161, 1 + 0.001 * (k % 50)],
    roll: ofAxis("roll", factor),
    pitch: ofAxis("pitch", factor),
  }));
  return {
    ...map,
    axes: { roll: axis("roll"), pitch: axis("pitch") },
    uncertainty: { confidence, pointDraws: DRAWS, spreads: SPREADS, redrawn: 0, draws },
  };
}
