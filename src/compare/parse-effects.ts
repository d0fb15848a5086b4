// effects.json read back: its shape first, then the map of each changed model.
import { check } from "../base/check.js";
import type { Document } from "../base/document.js";
import { Problems } from "../base/problem.js";
import { BASELINE_FORMAT } from "./baseline.js";
import type { Effects } from "./effect-format.js";
import { effectsShape } from "./effect-shape.js";
import { parseBaseline } from "./parse-baseline.js";

/** The effects of a document. InputError with the problems found. */
export function parseEffects(document: Document): Effects {
  const effects = check(effectsShape, document) as unknown as Effects;
  const problems = new Problems();
  for (const [k, { found }] of effects.effects.entries()) {
    if (found === null) continue;
    const place: Document["place"] = (path, of) => document.place(["effects", k, "found", "map", ...path], of);
    problems.attempt(() => parseBaseline({ ...document, data: { format: BASELINE_FORMAT, ...found.map }, place }));
  }
  problems.throwIfAny();
  return effects;
}
