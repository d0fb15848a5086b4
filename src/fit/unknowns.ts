// What a fit looks for: scores, each a standard normal number before anything was measured, that make a craft.
import type { Airframe } from "../airframe/airframe.js";
import type { Mixer } from "../airframe/mixer.js";

export interface Unknowns {
  /** One per number of the model with a spread, as the model spells it. */
  readonly keys: readonly string[];
  /** The craft at these independent scores; null where no craft can have them. */
  airframeAt(scores: Float64Array): Airframe | null;
  /** Of the model as it is written. */
  readonly mixer: Mixer;
}
