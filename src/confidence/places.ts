// At which throttle levels and conditions the loops of a draw are looked at.
import { at } from "../base/at.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { drawTheory } from "./draw-theory.js";

/** Per axis one variant, by its index, for each throttle level and condition at which the axis is simulated. */
export type Places = Readonly<Record<Axis, readonly number[]>>;

export function placesOf({ variants }: Plan): Places {
  const of = (axis: Axis): number[] => {
    const first = new Map<string, number>();
    for (const variant of variants) {
      const key = `${variant.condition} ${variant.throttle}`;
      if (variant.axis === axis && !first.has(key)) first.set(key, variant.index);
    }
    return [...first.values()];
  };
  return { roll: of("roll"), pitch: of("pitch") };
}

/**
 * The places that decide the margins in the model as it is written: without any of the others the same points of the grid
 * have them.
 */
export function bindingPlaces(plan: Plan, places: Places): Places {
  const of = (axis: Axis): number[] => {
    const { p, d } = plan.sweep.grid[axis];
    const own = at(places[axis], 0) === undefined ? [] : places[axis];
    const holds = own.map((index) => {
      const theory = drawTheory(plan, { roll: [], pitch: [], [axis]: [index] })[axis];
      return d.flatMap((dGain) => p.map((pGain) => theory.hasMargins(pGain, dGain)));
    });
    const all = (kept: readonly number[]) => (point: number) => kept.every((place) => holds[place]?.[point] === true);
    let kept = own.map((_, place) => place);
    for (const place of [...kept]) {
      const without = kept.filter((other) => other !== place);
      const same = d
        .flatMap((_, row) => p.map((__, column) => row * p.length + column))
        .every((point) => all(without)(point) === all(kept)(point));
      if (without.length > 0 && same) kept = without;
    }
    return kept.map((place) => at(own, place));
  };
  return { roll: of("roll"), pitch: of("pitch") };
}
