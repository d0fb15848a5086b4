// The spread due to chance at one tune: the trials that decide its measures, simulated again under other seeds.
import { at, numberAt } from "../base/at.js";
import { MEASURES, type MeasureId } from "../base/measures.js";
import { roundToTwelveDigits } from "./display-units.js";
import type { OtherSeeds } from "./format.js";
import type { PointTrials } from "./simulate-point.js";
import { WIDTH } from "./trials.js";
import type { WorstPoint } from "./worst.js";

/** Seeds simulated besides the plan's own: ten values in all. */
export const OTHER_SEEDS = 9;
const SEEDS = 2 ** 32;

export type SeedRanges = OtherSeeds["ranges"];

/**
 * Lowest and highest value of each measure that has a limit, of its worst trial at these SI gains. A measure that is absent
 * under any of the seeds has no range, and neither has one whose trial does not depend on the seed.
 */
export async function underOtherSeeds(
  { plan, ask }: Pick<PointTrials, "plan" | "ask">,
  { p, d, worst }: { readonly p: number; readonly d: number; readonly worst: WorstPoint },
): Promise<SeedRanges> {
  const shown = MEASURES.flatMap(({ id }, column) => {
    const { value, variant } = worst[id];
    return plan.sweep.limits[id] === null || value === null || !dependsOnSeed(plan, variant)
      ? []
      : [{ id, column, variant }];
  });
  const variants = [...new Set(shown.map(({ variant }) => variant))];
  const seeds = Array.from({ length: OTHER_SEEDS }, (_, k) => (plan.sweep.seed + 1 + k) % SEEDS);
  const { values, absent } = await ask(variants.flatMap((variant) => seeds.map((seed) => ({ variant, p, d, seed }))));
  const rangeOf = ({ id, column, variant }: (typeof shown)[number]): [MeasureId, readonly [number, number]][] => {
    const places = seeds.map((_, k) => (variants.indexOf(variant) * OTHER_SEEDS + k) * WIDTH + column);
    if (places.some((place) => absent[place] !== 0)) return [];
    const readings = places.map((place) => roundToTwelveDigits(numberAt(values, place)));
    return [[id, [Math.min(...readings), Math.max(...readings)]]];
  };
  return Object.fromEntries(shown.flatMap(rangeOf));
}

/** Whether anything in the variant's trials is drawn at random. */
function dependsOnSeed({ variants }: PointTrials["plan"], index: number): boolean {
  const { noise, descent, gusts } = at(variants, index).script;
  return noise || descent.length > 0 || gusts.some(({ kind }) => kind === "turbulence");
}
