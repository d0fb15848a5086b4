// What a fit looks for: scores, independent standard normal numbers before anything was measured, that make a craft.
import { Matrix } from "ml-matrix";
import type { Airframe } from "../airframe/airframe.js";
import { loopGainSpread, spreadsOf } from "../airframe/drawn.js";
import { airframeAt, fileOf } from "../airframe/draws.js";
import { type Mixer, mixerOf } from "../airframe/mixer.js";
import { parseAirframe } from "../airframe/resolve.js";
import { correlationMatrix, factorOf } from "../airframe/together.js";
import type { Document } from "../base/document.js";
import type { PlacedSpread } from "../base/spreads-in.js";

export interface Unknowns {
  /** The numbers of the model with a spread; the loop gain last, where it is looked for and the model has none. */
  readonly spreads: readonly PlacedSpread[];
  /** Lower triangle: scores of the numbers, which may go together, from independent ones. */
  readonly factor: Matrix;
  /** The craft at these independent scores, one per spread; null where no craft can have them. */
  airframeAt(scores: Float64Array): Airframe | null;
  /** Of the model as it is written: the controller knows no other. */
  readonly mixer: Mixer;
  readonly airframe: Airframe;
}

/** Of a model that has passed its checks. `loopGain`: expanded uncertainty of what is not modelled, a fraction; 0: none. */
export function unknownsOf(document: Document, loopGain: number): Unknowns {
  const spreads = [...spreadsOf(document), ...loopGainSpread(loopGain, fileOf(document))];
  const airframe = parseAirframe(document);
  const factor = factorOf(correlationMatrix(spreads, airframe.correlations ?? []));
  return {
    spreads,
    factor,
    airframeAt: (scores) => airframeAt(document, spreads, factor.mmul(Matrix.columnVector([...scores])).getColumn(0)),
    mixer: mixerOf(airframe.rotors, airframe.centreOfMass),
    airframe,
  };
}
