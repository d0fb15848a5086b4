// At which throttle levels and conditions the loops of a draw are looked at.
import { at } from "../base/at.js";
import { firstAtEachLevel } from "../map/margins.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { drawTheory } from "./draw-theory.js";

/** Per axis one variant, by its index, for each throttle level and condition at which the axis is simulated. */
export type LoopPlaces = Readonly<Record<Axis, readonly number[]>>;

export function loopPlaces({ variants }: Plan): LoopPlaces {
  const of = (axis: Axis) =>
    firstAtEachLevel(variants.filter((variant) => variant.axis === axis)).map(({ index }) => index);
  return { roll: of("roll"), pitch: of("pitch") };
}

/**
 * The places that decide the margins in the model as it is written: without any of the others the same points of the grid
 * have them.
 */
export function bindingPlaces(plan: Plan, places: LoopPlaces): LoopPlaces {
  const of = (axis: Axis): number[] => {
    const { p, d } = plan.sweep.grid[axis];
    const gains = d.flatMap((dGain) => p.map((pGain) => [pGain, dGain] as const));
    const margins = new Map(
      places[axis].map((place) => {
        const { haveMargins } = drawTheory(plan, { roll: [], pitch: [], [axis]: [place] })[axis];
        return [place, haveMargins(gains)] as const;
      }),
    );
    const inAll = (some: readonly number[]) =>
      gains.map((_, point) => some.every((place) => margins.get(place)?.[point] === 1));
    let binding = [...places[axis]];
    for (const place of places[axis]) {
      const others = binding.filter((other) => other !== place);
      const [all, fewer] = [inAll(binding), inAll(others)];
      if (others.length > 0 && fewer.every((holds, point) => holds === at(all, point))) binding = others;
    }
    return binding;
  };
  return { roll: of("roll"), pitch: of("pitch") };
}
