// Trials that left the numbers: a fact of the map, with the time it happened, neither healed nor hidden.
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

/** The map with every point of the grid at which a trial diverged; as it was where none did. */
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

function pointsOf(plan: Plan, axis: Axis, trials: readonly DivergedTrial[]): { diverged?: readonly DivergedPoint[] } {
  const first = new Map<string, DivergedTrial>();
  for (const trial of trials) {
    if (plan.variants[trial.variant].axis !== axis) continue;
    const place = `${trial.p} ${trial.d}`;
    const held = first.get(place);
    if (held === undefined || trial.after < held.after) first.set(place, trial);
  }
  const points = [...first.values()].sort((a, b) => a.d - b.d || a.p - b.p);
  if (points.length === 0) return {};
  return {
    diverged: points.map(({ variant, p, d, after }) => ({
      p: toDisplayP(p),
      d: toDisplayD(d),
      after: roundToTwelveDigits(after),
      ...limitingCaseOf(plan, plan.variants[variant]),
    })),
  };
}
