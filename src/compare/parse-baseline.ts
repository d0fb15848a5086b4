// A baseline read back: its own shape first, then, unpacked, everything a map must agree on.
import { z } from "zod";
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { Problems } from "../base/problem.js";
import { expecting, list, object, record, text } from "../base/read-back.js";
import { MOST_VARIANTS } from "../base/sizes.js";
import type { StabilityMap } from "../map/format.js";
import { gridFaults, parseMap } from "../map/parse.js";
import { gridLines } from "../map/schema.js";
import { BASELINE_FORMAT, type Baseline, mapOfBaseline } from "./baseline.js";
import { baselineDrawsShape, drawsFaults } from "./baseline-draws.js";

const end = z.number(expecting("a number or null")).nullable();
const verdictRow = text().regex(/^[shrlcC]*$/, "letters other than s, h, r, l, c and C");

const axis = object({
  grid: gridLines(),
  verdicts: list(verdictRow),
  sustained: list(object({})),
  overshoot: list(object({})),
  settling: list(object({})),
  byVariant: list(list(list(z.tuple([end, end], expecting("two ends of a stable range"))))),
  margins: object({}),
  measures: object({}),
  absent: record(list(text().regex(/^[0-9a-z]*$/, "characters other than 0 to 9 and a to z")), "a group of measures"),
});

// What the unpacking touches; the rest is checked as part of the map it becomes.
const schema = object({
  format: z.literal(BASELINE_FORMAT),
  limits: object({}),
  variants: list(object({ axis: z.string(expecting("roll or pitch")) }), MOST_VARIANTS),
  axes: object({ roll: axis, pitch: axis }),
  uncertainty: baselineDrawsShape().exactOptional(),
});

/** The map of a baseline document, as far as a comparison reads it. InputError with every problem found. */
export function parseBaseline(document: Document): StabilityMap {
  const baseline = check(schema, document) as unknown as Baseline;
  const problems = new Problems();
  for (const name of ["roll", "pitch"] as const)
    for (const [path, message] of gridFaults(baseline.axes[name].grid, ["axes", name, "grid"]))
      problems.add(problemAt(document, path, message));
  for (const [path, message] of drawsFaults(baseline)) problems.add(problemAt(document, path, message));
  problems.throwIfAny(); // before a table is made of it
  return parseMap({ ...document, data: mapOfBaseline(baseline) });
}
