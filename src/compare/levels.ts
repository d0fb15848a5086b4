// The sustained boundary's shift at each throttle level and pack state, and for every script simulated there.
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { worstInterval } from "../map/boundary.js";
import type { ConditionBoundary, StabilityMap } from "../map/format.js";
import type { Axis, LevelShift, ShiftLine, VariantShift } from "./format.js";
import { planOf } from "./question.js";
import { type End, shiftLine } from "./shift.js";

/** One variant's boundaries on both sides; a hover level is another duty for each craft. */
interface VariantPair {
  readonly base: ConditionBoundary;
  readonly candidate: ConditionBoundary;
  readonly throttle: number | "hover";
}

/** Variants keep their order under one question, so the n-th of one side is the n-th of the other. */
function variantPairs(axis: Axis, base: StabilityMap, candidate: StabilityMap): VariantPair[] {
  const indices = base.variants.flatMap((variant, index) => (variant.axis === axis ? [index] : []));
  return indices.map((index, place) => {
    const one = at(base.axes[axis].boundary.byVariant, place);
    const hovering = planOf(base).variants[index]?.hovering === true;
    return {
      base: one,
      candidate: at(candidate.axes[axis].boundary.byVariant, place),
      throttle: hovering ? "hover" : one.throttle,
    };
  });
}

export function variantShifts(axis: Axis, base: StabilityMap, candidate: StabilityMap): VariantShift[] {
  const top = base.axes[axis].grid.p.at(-1) ?? 0;
  return variantPairs(axis, base, candidate).map(({ base: one, candidate: other, throttle }) => ({
    script: one.script,
    throttle,
    rate: one.rate,
    condition: one.condition,
    ...shiftLine(worstEnds([one]), worstEnds([other]), top),
  }));
}

/** Per throttle level and condition, the worst case over its scripts on either side; in the sweep's order. */
export const levelShifts = (axis: Axis, base: StabilityMap, candidate: StabilityMap): LevelShift[] =>
  groupShifts(axis, base, candidate, levelOf).map(([{ throttle, base: first }, line]) => ({
    throttle,
    condition: first.condition,
    ...line,
  }));

/** Per condition, the worst case over its scripts and throttle levels. */
export const conditionShifts = (axis: Axis, base: StabilityMap, candidate: StabilityMap) =>
  groupShifts(axis, base, candidate, ({ base: { condition } }) => condition).map(([{ base: first }, line]) => ({
    condition: first.condition,
    ...line,
  }));

/** The boundary at one throttle level and pack state: the worst case over its scripts. */
interface LevelEnds {
  readonly throttle: number | "hover";
  readonly condition: string;
  readonly ends: readonly End[]; // per D
}

/** Of one map, in the sweep's order. */
export const levelEnds = (axis: Axis, map: StabilityMap): LevelEnds[] =>
  grouped(axis, map, map, levelOf).map((group) => {
    const { throttle, base: first } = at(group, 0);
    return { throttle, condition: first.condition, ends: worstEnds(group.map(({ base }) => base)) };
  });

const levelOf = ({ throttle, base: { condition } }: VariantPair) => [throttle, condition];

/** The first variant of each group, and the shift of the worst case over all of it. */
function groupShifts(
  axis: Axis,
  base: StabilityMap,
  candidate: StabilityMap,
  keyOf: (pair: VariantPair) => unknown,
): (readonly [VariantPair, ShiftLine])[] {
  const top = base.axes[axis].grid.p.at(-1) ?? 0;
  return grouped(axis, base, candidate, keyOf).map((group) => {
    const ends = (side: "base" | "candidate") => worstEnds(group.map((one) => one[side]));
    return [at(group, 0), shiftLine(ends("base"), ends("candidate"), top)];
  });
}

/** Variants of both maps with the same key, in the sweep's order. */
function grouped(
  axis: Axis,
  base: StabilityMap,
  candidate: StabilityMap,
  keyOf: (pair: VariantPair) => unknown,
): VariantPair[][] {
  const groups = new Map<string, VariantPair[]>();
  for (const one of variantPairs(axis, base, candidate)) {
    const key = canonicalJson(keyOf(one));
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

/** Per D, the upper end of the P range that counts of those that all of the variants survive. */
function worstEnds(boundaries: readonly ConditionBoundary[]): End[] {
  const perVariant = boundaries.map(({ perD }, variant) => ({ variant, perD: perD.map(({ stable }) => stable) }));
  return (boundaries[0]?.perD ?? []).map(({ d }, row): End => {
    const worst = worstInterval(perVariant, row);
    if ("never" in worst) return { d, p: null, stable: false };
    const ranges = [worst, ...(worst.others ?? [])].map(
      ({ from, to, fromOpen, toOpen }) => [fromOpen ? null : from, toOpen ? null : to] as const,
    );
    return { d, p: worst.toOpen ? null : worst.to, stable: true, ranges };
  });
}
