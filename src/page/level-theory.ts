// Theory's say under one throttle level and pack, where every trial flown there dies out: as the map itself heard it.
import { isFarBeyond, within } from "../map/cautious.js";
import { byTheory, NOBODY } from "../map/decider.js";
import type { Axis } from "../report/axes.js";
import type { PageMap } from "./page-map.js";
import type { Level } from "./simulator.js";

/** The code of who objects to a point of the survey's grid. */
export type Objector = (i: number, j: number) => number;

export const nobody: Objector = () => NOBODY;

const SAME_DUTY = 1e-6; // %, the map's own rounding

/** Theory objects where it decided the map, and where the level's own loop is unstable well beyond its boundary. */
export function levelObjector(survey: PageMap, axis: Axis, { duty, condition, variants }: Level): Objector {
  const loop = survey.tunes[axis].theory.find(
    (one) => one.condition === condition && Math.abs(one.throttle - duty) < SAME_DUTY,
  );
  const mine = variants.find((variant) => variant.axis === axis);
  if (loop === undefined || mine === undefined) return nobody;
  const { decidedBy } = survey.axes[axis];
  return (i, j) => {
    const p = survey.grid.p[j] as number;
    const stable = loop.stable[i] ?? [];
    if (stable.some((range) => within(range, p))) return NOBODY;
    const decided = (decidedBy[i]?.[j] ?? NOBODY) < NOBODY;
    return decided || isFarBeyond(stable, p, loop.tried) ? byTheory(mine.index) : NOBODY;
  };
}
