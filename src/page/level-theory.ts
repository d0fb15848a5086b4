// Theory's verdict under one throttle level and pack, where every trial there dies out: by the same rule as in the map.

import { at } from "../base/at.js";
import { byTheory, NOBODY } from "../map/decider.js";
import { isFarBeyond, within } from "../map/with-theory.js";
import type { Axis } from "../words/axes.js";
import type { PageMap } from "./page-map.js";
import type { Level } from "./simulator.js";

/** The code (see decider.ts) of what decides against a point of the grid, NOBODY if nothing does. */
export type TheoryDecider = (i: number, j: number) => number;

export const noDecider: TheoryDecider = () => NOBODY;

const SAME_DUTY = 1e-6; // %, the map's own rounding

/** Theory decides where it decided the map, and where the level's own loop is unstable well beyond its boundary. */
export function levelTheoryDecider(pageMap: PageMap, axis: Axis, { duty, condition, variants }: Level): TheoryDecider {
  const loop = pageMap.tunes[axis].theory.find(
    (one) => one.condition === condition && Math.abs(one.throttle - duty) < SAME_DUTY,
  );
  const mine = variants.find((variant) => variant.axis === axis);
  if (loop === undefined || mine === undefined) return noDecider;
  const { decidedBy, grid } = pageMap.axes[axis];
  return (i, j) => {
    const p = at(grid.p, j);
    const stable = loop.stable[i] ?? [];
    if (stable.some((range) => within(range, p))) return NOBODY;
    const decided = (decidedBy[i]?.[j] ?? NOBODY) < NOBODY;
    return decided || isFarBeyond(stable, p, loop.tried) ? byTheory(mine.index) : NOBODY;
  };
}
