// The point whose trials are shown, and what stands above each of them.
import type { Variant } from "../../plan/plan.js";
import { AXIS_TITLES } from "../../words/axes.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import { measuredWords, placeWords } from "../words.js";
import type { PointDecision } from "./decision.js";
import { leftWords } from "./listen-words.js";
import type { PointGains } from "./point-trials.js";
import type { Spectrum } from "./spectrum.js";
import type { Trial } from "./trial.js";
import { decisionWords, endWords, variantWords } from "./trial-words.js";

/** A point as it is shown: gains in display units. */
export interface ShownPoint extends PointGains {
  readonly decision: PointDecision;
}

export const titleOf = (pageMap: PageMap, { axis, p, d, decision }: ShownPoint): string => {
  const draw = decision.kind === "draw" && decision.isSimulated ? `, draw ${decision.draw + 1}` : "";
  return `${AXIS_TITLES[axis]}, ${placeWords(pageMap, p, d)}${draw}`;
};

export function sentences(
  pageMap: PageMap,
  simulator: Simulator,
  point: ShownPoint,
  variant: Variant,
  trial: Trial,
  spectrum: Spectrum | null,
): readonly string[] {
  const measured = measuredWords((id) => trial.measures[id]);
  return [
    `${titleOf(pageMap, point)}: ${variantWords(simulator, variant)}.`,
    `${decisionWords(pageMap, point.decision, variant.index)} ${endWords(trial)}`,
    measured === "" ? "" : `In this trial: ${measured}.`,
    spectrum === null ? "" : leftWords(spectrum),
  ];
}
