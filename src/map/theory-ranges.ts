// The stable ranges of theory's loops, with whether any trial at their level moved the axis.
import { at } from "../base/at.js";
import type { Plan } from "../plan/plan.js";
import type { VariantBoundary } from "./boundary.js";
import type { AxisTheory } from "./margins.js";
import type { TheoryLoop } from "./theory-format.js";
import type { TheoryRanges } from "./with-theory.js";

/** `lines` holds the stable ranges of theory's loops, in their order. */
export function theoryRangesOf(
  plan: Plan,
  boundaries: readonly VariantBoundary[],
  { loops }: AxisTheory,
  lines: { readonly loops: readonly Pick<TheoryLoop, "perD">[] },
): TheoryRanges[] {
  const placeOf = (index: number): string => {
    const { throttle, condition } = at(plan.variants, index);
    return `${throttle} ${condition}`;
  };
  const moved = new Set(boundaries.filter(({ atRest }) => atRest !== true).map(({ variant }) => placeOf(variant)));
  return loops.map(({ variant }, index) => ({
    variant,
    perD: at(lines.loops, index).perD,
    tried: moved.has(placeOf(variant)),
  }));
}
