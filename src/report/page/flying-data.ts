// What it takes to fly a map's trials again, taken from the model and plan that map.json keeps.
import type { StabilityMap } from "../../map/format.js";

/** Plain data as the plan has it, SI; the script that flies it knows its types. */
export interface FlyingData {
  /** SI gains of the data's grid lines. */
  readonly grid: { readonly p: readonly number[]; readonly d: readonly number[] };
  readonly airframe: unknown;
  readonly seed: number;
  readonly holding: unknown;
  /** Condition, craft (without its airframe) and hover trim. */
  readonly conditions: readonly unknown[];
  readonly scripts: readonly { readonly name: string }[];
  /** Variants that name their script. */
  readonly variants: readonly unknown[];
}

/** As the map keeps it; anything may be missing in a map of another hand. */
interface Kept {
  readonly sweep?: {
    readonly seed: number;
    readonly grid: FlyingData["grid"];
    readonly scripts: readonly { readonly script: { readonly name: string } }[];
  };
  readonly holding?: unknown;
  readonly conditions?: readonly object[];
  readonly variants?: readonly object[];
}

/** For the grid lines given by index; null where the map does not hold enough to fly. */
export function flyingData(
  { model, plan }: StabilityMap,
  ds: readonly number[],
  ps: readonly number[],
): FlyingData | null {
  const { sweep, holding, conditions, variants } = plan as Kept;
  if (sweep === undefined || holding === undefined || conditions === undefined || variants === undefined) return null;
  const complete = conditions.every((one) => "craft" in one) && variants.every((one) => "trim" in one);
  if (!complete) return null;
  return {
    grid: { p: ps.map((j) => sweep.grid.p[j] as number), d: ds.map((i) => sweep.grid.d[i] as number) },
    airframe: model,
    seed: sweep.seed,
    holding,
    conditions,
    scripts: sweep.scripts.map(({ script }) => script),
    variants,
  };
}
