// Whether a map's tables answer the question that its own plan asks: grid, units, limits, variants, seed and names.
import { canonicalJson } from "../base/canonical.js";
import { digestOf } from "../base/digest.js";
import { MEASURE_IDS, type MeasureId } from "../base/measures.js";
import type { Path } from "../base/problem.js";
import { sweepDigest } from "../plan/plan.js";
import type { StoredPlan } from "../plan/stored-shape.js";
import { type RequestedVariant, requestedVariants } from "../plan/variants.js";
import type { Axis, Sweep } from "../sweep/sweep.js";
import { DEGREES, GAIN_UNITS, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import type { Fault } from "./fault.js";
import type { MapVariant, StabilityMap } from "./format.js";
import { unknownMeasures } from "./older-measures.js";
import { missingToSimulate, withoutFormat } from "./simulable.js";

/** What is wrong, by key; none where the map is consistent. Its shapes have been checked. */
export function questionFaults(map: StabilityMap): Fault[] {
  const plan = map.plan as StoredPlan;
  return [
    ...nameFaults(map, plan),
    ...lineFaults(map, plan),
    ...limitFaults(map, plan),
    ...variantFaults(map, plan),
    ...plannedFaults(map, plan),
  ];
}

/** A fault where the two differ. */
function differing(path: Path, here: unknown, planned: unknown, where = "in the plan"): Fault[] {
  if (Object.is(here, planned)) return [];
  return [[path, `${textOf(here)} here, ${textOf(planned)} ${where}`]];
}

const textOf = (value: unknown): string => (value === null || value === undefined ? "none" : String(value));

function nameFaults(map: StabilityMap, { sweep }: StoredPlan): Fault[] {
  const model = map.model as { readonly name: string; readonly version: string };
  const { airframe, provenance } = map;
  return [
    ...differing(["sweep", "name"], map.sweep.name, sweep.name),
    ...differing(["provenance", "seed"], provenance.seed, sweep.seed),
    ...differing(["airframe", "name"], airframe.name, model.name, "in the model"),
    ...differing(["airframe", "version"], airframe.version, model.version, "in the model"),
    ...digestFault(["sweep", "digest"], map.sweep.digest, sweepDigest(sweep as Partial<Sweep>), "plan.sweep"),
    ...digestFault(["airframe", "digest"], airframe.digest, digestOf(withoutFormat(map.model as object)), "model"),
  ];
}

const digestFault = (path: Path, stored: string, found: string, of: string): Fault[] =>
  stored === found ? [] : [[path, `is not that of ${of}, which was changed after it was simulated`]];

function lineFaults({ axes, units }: StabilityMap, { sweep }: StoredPlan): Fault[] {
  const line = (axis: Axis, gain: "p" | "d", toDisplay: (value: number) => number): Fault[] => {
    const [here, planned] = [axes[axis].grid[gain], sweep.grid[axis][gain].map(toDisplay)];
    const path: Path = ["axes", axis, "grid", gain];
    if (here.length !== planned.length) return [[path, `${here.length} here, ${planned.length} in the plan`]];
    return here.flatMap((value, at) => differing([...path, at], value, planned[at]));
  };
  return [
    ...(["roll", "pitch"] as const).flatMap((axis) => [...line(axis, "p", toDisplayP), ...line(axis, "d", toDisplayD)]),
    ...(["p", "d", "i"] as const).flatMap((gain) =>
      differing(["units", gain], units[gain], GAIN_UNITS[gain], "in every map"),
    ),
  ];
}

function limitFaults(map: StabilityMap, { sweep }: StoredPlan): Fault[] {
  const unknown = unknownMeasures(map);
  const stored = (id: MeasureId) => (unknown.includes(id) ? undefined : map.limits[id]);
  return MEASURE_IDS.flatMap((id) => differing(["limits", id], stored(id), sweep.limits[id]));
}

function variantFaults(map: StabilityMap, plan: StoredPlan): Fault[] {
  const requested = requestedVariants(plan.sweep as unknown as Sweep);
  const counts = [map.variants.length, plan.variants.length];
  if (counts.some((count) => count !== requested.length))
    return [[["variants"], `${counts[0]} here, ${requested.length} in the plan`]];
  return requested.flatMap((one, at) => [...oneVariant(map, plan, one, at), ...plannedVariant(map, plan, one, at)]);
}

type ExpectedVariant = Pick<MapVariant, "script" | "kind" | "axis" | "throttle" | "rate" | "condition">;

/** The variant as the map must have it. */
function expectedVariant({ hover }: StabilityMap, { sweep }: StoredPlan, requested: RequestedVariant): ExpectedVariant {
  const { script, axis, level, rate, condition } = requested;
  const { name = "" } = sweep.conditions[condition] ?? {};
  const throttle = level === "hover" ? (hover[name]?.throttle ?? Number.NaN) : roundToTwelveDigits(100 * level);
  return {
    script: script.name,
    kind: script.kind,
    axis,
    throttle,
    rate: roundToTwelveDigits(DEGREES * rate),
    condition: name,
  };
}

function oneVariant(map: StabilityMap, plan: StoredPlan, requested: RequestedVariant, at: number): Fault[] {
  const here = map.variants[at] as MapVariant;
  return Object.entries(expectedVariant(map, plan, requested)).flatMap(([key, planned]) =>
    differing(["variants", at, key], here[key as keyof ExpectedVariant], planned),
  );
}

/** The plan's own list, where a map holds more of it than a baseline does. */
function plannedVariant(map: StabilityMap, plan: StoredPlan, requested: RequestedVariant, at: number): Fault[] {
  const stored = plan.variants[at] as StoredPlan["variants"][number];
  const { script, axis, level, rate, condition } = requested;
  const path = (key: string): Path => ["plan", "variants", at, key];
  const expected = { index: at, script: script.name, axis, rate, condition };
  const duty =
    stored.throttle === undefined
      ? []
      : differing(
          path("throttle"),
          roundToTwelveDigits(100 * stored.throttle),
          map.variants[at]?.throttle,
          "in variants",
        );
  return [
    ...differing(path("hovering"), stored.hovering, level === "hover", "in the sweep"),
    ...duty,
    ...Object.entries(expected).flatMap(([key, planned]) => {
      const here = stored[key as keyof typeof expected];
      return here === undefined ? [] : differing(path(key), here, planned, "in the sweep");
    }),
  ];
}

/** Conditions and hover: one of each for every condition of the sweep, and what belongs to the rotors as long as these. */
function plannedFaults(map: StabilityMap, plan: StoredPlan): Fault[] {
  const { sweep, conditions } = plan;
  const names = sweep.conditions.map(({ name }) => name);
  const hovers = Object.keys(map.hover);
  const hover: Fault[] =
    hovers.length === names.length && names.every((name) => Object.hasOwn(map.hover, name))
      ? []
      : [[["hover"], `expected one of each of ${names.join(", ")}`]];
  // A part of what simulating takes is never used.
  if (conditions === undefined || missingToSimulate(map) !== null) return hover;
  if (conditions.length !== names.length)
    return [...hover, [["plan", "conditions"], `${conditions.length} here, ${names.length} in the sweep`]];
  return [...hover, ...conditions.flatMap((one, at) => conditionFaults(map, plan, one, at)), ...rotorFaults(map, plan)];
}

function conditionFaults(map: StabilityMap, { sweep }: StoredPlan, one: Condition, at: number): Fault[] {
  const requested = sweep.conditions[at];
  const path: Path = ["plan", "conditions", at];
  if (canonicalJson(one.condition) !== canonicalJson(requested))
    return [[[...path, "condition"], "is not the one of the sweep"]];
  const hovering = map.hover[one.condition.name]?.throttle;
  return differing([...path, "hover", "throttle"], roundToTwelveDigits(100 * one.hover.throttle), hovering, "in hover");
}

type Condition = NonNullable<StoredPlan["conditions"]>[number];

/** Lists with an entry per rotor, by their place. */
function rotorFaults(map: StabilityMap, { conditions = [], variants }: StoredPlan): Fault[] {
  const { length: rotors } = (map.model as { readonly rotors: readonly unknown[] }).rotors;
  const trim = ({ duties, speeds, currents }: Condition["hover"]) => ({ duties, speeds, currents });
  const lists = [
    ...conditions.flatMap(({ craft: { arms, spins, mixer }, hover }, at) => [
      [["plan", "conditions", at, "craft"], { arms, spins }] as const,
      [["plan", "conditions", at, "craft", "mixer"], { roll: mixer.roll, pitch: mixer.pitch, yaw: mixer.yaw }] as const,
      [["plan", "conditions", at, "hover"], trim(hover)] as const,
    ]),
    ...variants.flatMap((one, at) =>
      one.trim === undefined ? [] : [[["plan", "variants", at, "trim"], trim(one.trim)] as const],
    ),
  ];
  return lists.flatMap(([path, group]) =>
    Object.entries(group).flatMap(([key, { length }]): Fault[] =>
      length === rotors ? [] : [[[...path, key], `${length} items, the model has ${rotors} rotors`]],
    ),
  );
}
