// The trials of the map, simulated again in the page: the same plan, the same kernels, the same bits.

import type { Airframe } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { at } from "../base/at.js";
import { noiseInto, noiseLength, variantBursts } from "../kernel/noise.js";
import { withNumbers } from "../map/drawn-numbers.js";
import type { SimulationData } from "../page-data/simulation-data.js";
import type { PlannedCondition } from "../plan/operating-points.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { KernelFor } from "../run/kernels.js";
import { type PlainTrials, plainTrials } from "../run/plain.js";
import { type Task, type TaskResult, tasksOn } from "../run/task.js";
import type { Script } from "../sweep/sweep.js";

/** A throttle level under a condition, as the map's scripts meet it. */
export interface Level {
  /** Duty in %; null: where the craft hovers. */
  readonly throttle: number | null;
  /** The same with the hovering duty put in, %. */
  readonly duty: number;
  readonly condition: string;
  readonly variants: readonly Variant[];
}

export interface Simulator {
  readonly plan: Plan;
  readonly levels: readonly Level[];
  /** SI gains of the map's grid lines. */
  readonly grid: SimulationData["grid"];
  /** The variant set up for one trial at a time; the one used last is cached. */
  readonly trialsFor: (variant: Variant) => PlainTrials;
  /** Many trials at once. */
  readonly run: (task: Task) => TaskResult;
}

/** `kernelFor` gives the vector kernel for a shape of craft; without one the plain kernel runs, with the same bits. */
export function simulatorOf(data: SimulationData, kernelFor: KernelFor = () => null): Simulator {
  const plan = planOf(data);
  return {
    plan,
    levels: levelsOf(plan),
    grid: data.grid,
    run: tasksOn(plan, kernelFor),
    trialsFor: latestOf((variant) => plainTrials(plan, variant)),
  };
}

/** A variant names its script, and says where it ends if it was made longer than that. */
type StoredVariant = Omit<Variant, "script"> & { readonly script: string } & Partial<Pick<Script, "duration" | "tail">>;

/**
 * The same for a draw, by its index: what chance decides of a wash is that of the model as it is written, as in the map. Null
 * where the map holds too little of its draws.
 */
export function drawSimulator(data: SimulationData, draw: number, kernelFor: KernelFor = () => null): Simulator | null {
  const drawn = data.draws === undefined ? null : withNumbers(data, data.draws, draw);
  if (drawn === null) return null;
  const [plan, own] = [planOf(data), planOf(drawn)];
  const run = tasksOn({ ...plan, draws: [own] }, kernelFor);
  return {
    plan: own,
    levels: levelsOf(own),
    grid: data.grid,
    run: (task) => run({ ...task, draw: 0 }),
    trialsFor: latestOf((variant) => {
      const bursts = variantBursts(plan, at(plan.variants, variant.index));
      return plainTrials(own, variant, noiseInto(new Float64Array(noiseLength(own, variant)), own, variant, bursts));
    }),
  };
}

/** What was made last is cached. */
function latestOf<K, T>(make: (key: K) => T): (key: K) => T {
  let latest: { readonly key: K; readonly made: T } | null = null;
  return (key) => {
    if (latest?.key !== key) latest = { key, made: make(key) };
    return latest.made;
  };
}

/** The part of the plan that a simulation reads: no grid, no limits, no digests. */
function planOf({ airframe, seed, holding, conditions, scripts, variants }: SimulationData): Plan {
  const named = new Map((scripts as readonly Script[]).map((script) => [script.name, script]));
  const crafts = conditions as readonly (Omit<PlannedCondition, "craft"> & { craft: Omit<Craft, "airframe"> })[];
  const storedVariants = variants as readonly StoredVariant[];
  return {
    airframe: airframe as Airframe,
    sweep: { seed },
    holding,
    conditions: crafts.map((one) => ({ ...one, craft: { ...one.craft, airframe } })),
    variants: storedVariants.map(({ duration, tail, ...one }) => ({
      ...one,
      script: { ...named.get(one.script), ...(tail === undefined ? {} : { duration, tail }) },
    })),
  } as unknown as Plan;
}

function levelsOf({ variants, conditions }: Plan): Level[] {
  const groups = new Map<string, Variant[]>();
  for (const variant of variants) {
    const key = `${variant.hovering ? "hover" : variant.throttle} ${variant.condition}`;
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    group.push(variant);
  }
  return [...groups.values()].map((group) => {
    const { hovering, throttle, condition } = at(group, 0);
    return {
      throttle: hovering ? null : 100 * throttle,
      duty: 100 * throttle,
      condition: at(conditions, condition).condition.name,
      variants: group,
    };
  });
}
