// Trials that diverged: part of the map, with the time at which it happened, neither repaired nor hidden.
import { at } from "../base/at.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { limitingCaseOf, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import type { DivergedPoint, StabilityMap } from "./format.js";

/** SI. */
export interface DivergedTrial {
  readonly variant: number;
  readonly p: number;
  readonly d: number;
  readonly after: number; // s
}

/** The map with every point of the grid at which a trial diverged; unchanged where none did. */
export function withDiverged(plan: Plan, map: StabilityMap, trials: readonly DivergedTrial[]): StabilityMap {
  if (trials.length === 0) return map;
  const { roll, pitch } = map.axes;
  return {
    ...map,
    axes: {
      roll: { ...roll, ...pointsOf(plan, "roll", trials) },
      pitch: { ...pitch, ...pointsOf(plan, "pitch", trials) },
    },
  };
}

function pointsOf(
  plan: Plan,
  axis: Axis,
  trials: readonly DivergedTrial[],
): { divergences?: readonly DivergedPoint[] } {
  const first = new Map<string, DivergedTrial>();
  for (const trial of trials) {
    if (at(plan.variants, trial.variant).axis !== axis) continue;
    const place = `${trial.p} ${trial.d}`;
    const earliest = first.get(place);
    if (earliest === undefined || trial.after < earliest.after) first.set(place, trial);
  }
  const points = [...first.values()].sort((a, b) => a.d - b.d || a.p - b.p);
  if (points.length === 0) return {};
  return {
    divergences: points.map(({ variant, p, d, after }) => ({
      p: toDisplayP(p),
      d: toDisplayD(d),
      after: roundToTwelveDigits(after),
      ...limitingCaseOf(plan, at(plan.variants, variant)),
    })),
  };
}
