// Real maps of the test craft on a small grid, simulated in this thread, and ways to bend them.

import type { Airframe } from "../../src/airframe/airframe.js";
import { DEFAULT_GATES } from "../../src/base/gates.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { compareMaps } from "../../src/compare/compare.js";
import type { Drift } from "../../src/compare/format.js";
import { simulate } from "../../src/flow/simulate.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { planSweep } from "../../src/plan/plan.js";
import type { Sweep } from "../../src/sweep/sweep.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

const lines = (from: number, to: number, count: number, unit: number): number[] =>
  Array.from({ length: count }, (_, k) => unit * (from + ((to - from) * k) / (count - 1)));

const SMALL: Partial<Sweep> = {
  name: "small",
  title: "Small",
  grid: bothAxes({ p: lines(3, 47, 12, P_UNIT), d: lines(0, 2, 5, D_UNIT) }),
  pinned: { roll: { p: 7 * P_UNIT, d: 1 * D_UNIT }, pitch: { p: 7 * P_UNIT, d: 1 * D_UNIT } },
  gates: DEFAULT_GATES,
  baseline: null,
};

/** The map of a craft nudged at two throttles on a full and a tired pack, with parts of the sweep changed. */
export async function simulatedMap(
  airframe: Airframe = stretchedX,
  change: Partial<Sweep> = {},
): Promise<StabilityMap> {
  const { sweep } = planOf(stretchedX, nudge(3), [0.4, 0.7], [FULL, TIRED]);
  const plan = planSweep(airframe, { ...sweep, ...SMALL, ...change });
  if (!("variants" in plan)) throw new Error(plan.map(({ message }) => message).join("; "));
  const provenance = { productVersion: "0.1.0", command: "gainscape sweep x.yaml", model: "m.yaml", sweep: "x.yaml" };
  const { map } = await simulate(plan, { workers: 0, provenance });
  return JSON.parse(JSON.stringify(map)) as StabilityMap; // as read back from disk
}

/** A slower gyro filter: the boundary comes down. */
export const slower: Airframe = {
  ...stretchedX,
  version: "2",
  sensing: { ...stretchedX.sensing, lowPass: [{ order: 2, cutoff: 120 }] },
};

export const withAxis = (map: StabilityMap, axis: "roll" | "pitch", change: Partial<AxisMap>): StabilityMap => ({
  ...map,
  axes: { ...map.axes, [axis]: { ...map.axes[axis], ...change } },
});

/** The drift of two maps that can be compared; throws where they cannot. */
export function driftOf(base: StabilityMap, candidate: StabilityMap): Drift {
  const drift = compareMaps(base, candidate, { productVersion: "0.1.0", command: "gainscape compare a b" });
  if ("differences" in drift) throw new Error(drift.differences.map(({ key }) => key).join(", "));
  return drift;
}
