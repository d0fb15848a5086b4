// The loops of theory as parties to an axis's boundary, with whether any trial of theirs has something to say.
import type { Plan } from "../plan/plan.js";
import type { VariantBoundary } from "./boundary.js";
import type { TheoryParty } from "./cautious.js";
import type { AxisTheory } from "./margins.js";
import type { TheoryLoop } from "./theory-format.js";

/** `lines` holds the stable ranges of theory's loops, in their order. */
export function partiesOf(
  plan: Plan,
  boundaries: readonly VariantBoundary[],
  { loops }: AxisTheory,
  lines: { readonly loops: readonly Pick<TheoryLoop, "perD">[] },
): TheoryParty[] {
  const placeOf = (index: number): string => `${plan.variants[index].throttle} ${plan.variants[index].condition}`;
  const moved = new Set(boundaries.filter(({ atRest }) => atRest !== true).map(({ variant }) => placeOf(variant)));
  return loops.map(({ variant }, at) => ({
    variant,
    perD: lines.loops[at].perD,
    tried: moved.has(placeOf(variant)),
  }));
}
