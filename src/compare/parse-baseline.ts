// A baseline read back: its own shape first, then, unpacked, everything a map must agree on.
import { z } from "zod";
import { check } from "../base/check.js";
import type { Document } from "../base/document.js";
import { shown } from "../base/fields.js";
import type { StabilityMap } from "../map/format.js";
import { parseMap } from "../map/parse.js";
import { BASELINE_FORMAT, type Baseline, mapOfBaseline } from "./baseline.js";

const told = (expected: string) => ({
  error: (issue: { readonly input?: unknown }) =>
    issue.input === undefined ? "missing" : `expected ${expected}, found ${shown(issue.input)}`,
});

const list = <S extends z.ZodType>(item: S) => z.array(item, told("a list"));
const group = <S extends z.core.$ZodLooseShape>(shape: S) => z.looseObject(shape, told("a group of keys"));
const number = z.number(told("a number"));
const end = z.number(told("a number or null")).nullable();
const picture = z.string(told("a text")).regex(/^[shrlcC]*$/, "letters other than s, h, r, l, c and C");

const axis = group({
  picture: list(picture),
  sustained: list(group({})),
  overshoot: list(group({})),
  settling: list(group({})),
  byCondition: list(list(list(z.tuple([end, end], told("two ends of a stable range"))))),
  margins: group({}),
  measures: group({}),
  absent: z.record(
    z.string(),
    list(z.string(told("a text")).regex(/^[0-7]*$/, "digits other than 0 to 7")),
    told("a group of measures"),
  ),
});

// What the unpacking touches; the rest is checked as part of the map it becomes.
const schema = group({
  format: z.literal(BASELINE_FORMAT),
  grid: group({ p: list(number), d: list(number) }),
  variants: list(group({ axis: z.string(told("roll or pitch")) })),
  axes: group({ roll: axis, pitch: axis }),
});

/** The map of a baseline document, as far as a comparison reads it. InputError with every problem found. */
export function parseBaseline(document: Document): StabilityMap {
  const baseline = check(schema, document) as unknown as Baseline;
  return parseMap({ ...document, data: mapOfBaseline(baseline) });
}
