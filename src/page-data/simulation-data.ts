// What the page needs to simulate a map's trials again, taken from the model and plan in map.json.
import { at } from "../base/at.js";
import { type DrawnNumbers, withNumbers } from "../map/drawn-numbers.js";
import type { GridLines, StabilityMap } from "../map/format.js";
import { missingToSimulate, withoutFormat } from "../map/simulable.js";

/** Plain data as the plan has it, SI; the page's script gives it its types. */
export interface SimulationData {
  /** SI gains of the grid lines that the page has, per axis. */
  readonly grid: Readonly<Record<"roll" | "pitch", GridLines>>;
  readonly airframe: unknown;
  readonly seed: number;
  readonly holding: unknown;
  /** Condition, craft (without its airframe) and hover trim. */
  readonly conditions: readonly unknown[];
  readonly scripts: readonly { readonly name: string }[];
  /** Variants that name their script. */
  readonly variants: readonly unknown[];
  /** What a draw's trials take; only where the map has draws that can be simulated. */
  readonly draws?: DrawnNumbers;
}

interface StoredPlan {
  readonly sweep: {
    readonly seed: number;
    readonly grid: SimulationData["grid"];
    readonly scripts: readonly { readonly script: { readonly name: string } }[];
  };
  readonly holding: unknown;
  readonly conditions: readonly object[];
  readonly variants: readonly object[];
}

/** For the grid lines given by index, per axis; null where the map lacks something that simulating its trials takes. */
export function simulationData(
  map: StabilityMap,
  linesOf: (axis: "roll" | "pitch") => { readonly d: readonly number[]; readonly p: readonly number[] },
): SimulationData | null {
  if (missingToSimulate(map) !== null) return null;
  const { sweep, holding, conditions, variants } = map.plan as StoredPlan;
  const chosen = (axis: "roll" | "pitch"): GridLines => {
    const { d, p } = linesOf(axis);
    const grid = sweep.grid[axis];
    return { p: p.map((j) => at(grid.p, j)), d: d.map((i) => at(grid.d, i)) };
  };
  const data: SimulationData = {
    grid: { roll: chosen("roll"), pitch: chosen("pitch") },
    airframe: withoutFormat(map.model as object),
    seed: sweep.seed,
    holding,
    conditions,
    scripts: sweep.scripts.map(({ script }) => script),
    variants,
  };
  const numbers = map.uncertainty?.numbers;
  // Every draw has the same places.
  return numbers === undefined || withNumbers(data, numbers, 0) === null ? data : { ...data, draws: numbers };
}
