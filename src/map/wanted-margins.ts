// The margins a safe point must keep, in display units.
import type { Plan } from "../plan/plan.js";
import { DEGREES, roundToTwelveDigits } from "./display-units.js";
import type { StabilityMap } from "./format.js";

export interface WantedMargins {
  readonly gain: number; // dB, up and down
  readonly phase: number; // deg
}

/** From the plan in the map. */
export function wantedMargins({ plan }: Pick<StabilityMap, "plan">): WantedMargins {
  const { gain, phase } = (plan as { readonly sweep: Pick<Plan["sweep"], "margins"> }).sweep.margins;
  return { gain, phase: roundToTwelveDigits(DEGREES * phase) };
}
