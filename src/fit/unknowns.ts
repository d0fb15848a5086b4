// What a fit looks for: scores, independent standard normal numbers before anything was measured, that make a craft.
import type { Airframe } from "../airframe/airframe.js";
import { loopGainSpread, spreadsOf } from "../airframe/drawn.js";
import { airframeAt, fileOf } from "../airframe/draws.js";
import { type Mixer, mixerOf } from "../airframe/mixer.js";
import { parseAirframe } from "../airframe/resolve.js";
import type { Document } from "../base/document.js";
import type { PlacedSpread } from "../base/spreads-in.js";

export interface Unknowns {
  /** The numbers of the model with a spread; the loop gain last, where it is looked for. */
  readonly spreads: readonly PlacedSpread[];
  /** The craft at these scores, one per spread; null where no craft can have them. */
  airframeAt(scores: Float64Array): Airframe | null;
  /** Of the model as it is written: the controller knows no other. */
  readonly mixer: Mixer;
}

/** Of a model that has passed its checks. `loopGain`: expanded uncertainty of what is not modelled, a fraction; 0: none. */
export function unknownsOf(document: Document, loopGain: number): Unknowns {
  const written = spreadsOf(document);
  const spreads = [...written, ...loopGainSpread(loopGain, fileOf(document))];
  const { rotors, centreOfMass } = parseAirframe(document);
  return {
    spreads,
    airframeAt: (scores) => airframeAt(document, spreads, scores),
    mixer: mixerOf(rotors, centreOfMass),
  };
}
