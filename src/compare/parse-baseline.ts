// A baseline read back: its own shape first, then, unpacked, everything a map must agree on.
import { z } from "zod";
import { check } from "../base/check.js";
import type { Document } from "../base/document.js";
import { list, number, part, text, told } from "../base/read-back.js";
import type { StabilityMap } from "../map/format.js";
import { parseMap } from "../map/parse.js";
import { BASELINE_FORMAT, type Baseline, mapOfBaseline } from "./baseline.js";

const end = z.number(told("a number or null")).nullable();
const picture = text().regex(/^[shrlcC]*$/, "letters other than s, h, r, l, c and C");

const axis = part({
  picture: list(picture),
  sustained: list(part({})),
  overshoot: list(part({})),
  settling: list(part({})),
  byCondition: list(list(list(z.tuple([end, end], told("two ends of a stable range"))))),
  margins: part({}),
  measures: part({}),
  absent: z.record(z.string(), list(text().regex(/^[0-7]*$/, "digits other than 0 to 7")), told("a group of measures")),
});

// What the unpacking touches; the rest is checked as part of the map it becomes.
const schema = part({
  format: z.literal(BASELINE_FORMAT),
  grid: part({ p: list(number()), d: list(number()) }),
  variants: list(part({ axis: z.string(told("roll or pitch")) })),
  axes: part({ roll: axis, pitch: axis }),
});

/** The map of a baseline document, as far as a comparison reads it. InputError with every problem found. */
export function parseBaseline(document: Document): StabilityMap {
  const baseline = check(schema, document) as unknown as Baseline;
  return parseMap({ ...document, data: mapOfBaseline(baseline) });
}
