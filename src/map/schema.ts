// The shape of map.json, for reading it back. Unknown keys are accepted: a later version may add some.
//
// A chapter that not every map has is added as one optional key: its type in a format file of its own and its shape in a
// file next to it (ladder-format.ts and ladder-shape.ts are one), named here with exactOptional(); what it must agree on
// with the rest is checked in table-faults.ts. Counts per point are a table [d][p] of the axis, as every other. A missing
// chapter is one that was not asked for, and the number in the format stays. A baseline holds a chapter only where a
// comparison reads it: compare/baseline.ts lists its keys.
import { z } from "zod";
import { MEASURE_IDS, VERDICTS } from "../base/measures.js";
import { bool, expecting, int, list, number, object, record, text } from "../base/read-back.js";
import { MOST_GRID_LINES, MOST_VARIANTS } from "../base/sizes.js";
import { axisConfidenceShape, uncertaintyShape } from "./confidence-shape.js";
import { ladderShape } from "./ladder-shape.js";
import { axis, gains, limitingCase, measuredValues, perAxis } from "./shapes.js";
import { stripsShape } from "./strip-shape.js";
import { theoryShape } from "./theory-shape.js";

const gridLine = () => list(number(), MOST_GRID_LINES);
export const gridLines = () => object({ p: gridLine(), d: gridLine() });
const table = <S extends z.ZodType>(item: S) => list(list(item));

const verdict = () => z.enum(VERDICTS, expecting(`one of ${VERDICTS.join(", ")}`));
/** Of every measure that the map's version knew. */
const measures = <S extends z.ZodType>(item: () => S) => {
  const shape = Object.fromEntries(MEASURE_IDS.map((id) => [id, item().exactOptional()]));
  return object(shape as Record<(typeof MEASURE_IDS)[number], z.ZodExactOptional<S>>);
};

const boundaryPoint = () =>
  object({
    d: number(),
    p: number().nullable(),
    reason: z.enum(["never", "always"], expecting("never or always")).exactOptional(),
    from: number().exactOptional(),
    fromDecidedBy: object(limitingCase).exactOptional(),
    otherRanges: list(
      z.tuple([number().nullable(), number().nullable()], expecting("two ends of a stable range")),
    ).exactOptional(),
    script: text().exactOptional(),
    throttle: number().exactOptional(),
    rate: number().exactOptional(),
    condition: text().exactOptional(),
  });

const pair = () => z.tuple([number(), number()], expecting("two numbers"));

const stable = object({
  from: number(),
  to: number(),
  fromOpen: bool(),
  toOpen: bool(),
  width: pair(),
});

const crossings = () => list(object({ d: number(), p: list(number()) }));
const room = () => object({ limit: text(), decidedBy: object(limitingCase).nullable(), factor: number().nullable() });

const start = object({
  p: number(),
  d: number(),
  i: number(),
  own: gains().nullable(),
  limitedBy: text(),
  room: object({ pUp: room(), pDown: room(), dUp: room(), dDown: room() }),
  measures: measuredValues(),
  otherSeeds: object({
    seeds: int(),
    ranges: z.record(text(), pair(), expecting("a group of measures")),
  }).exactOptional(),
  margins: object({ gainUp: number().nullable(), gainDown: number().nullable(), phase: number() }),
});

const pinned = object({
  p: number(),
  d: number(),
  own: gains().nullable(),
  verdict: verdict(),
  decidedBy: object(limitingCase).nullable(),
  measures: measuredValues(),
  margins: object({ gainUp: number().nullable(), gainDown: number().nullable(), phase: number() }),
  safe: bool(),
  boundary: boundaryPoint(),
});

const divergedPoint = object({ ...limitingCase, p: number(), d: number(), after: number() });

const axisMap = () =>
  object({
    grid: gridLines(),
    verdict: table(verdict()),
    reasons: table(int()),
    decidedBy: table(int()),
    measures: measures(() => table(number().nullable())),
    absent: measures(() => table(int())),
    margins: object({
      gainUp: table(number().nullable()),
      gainDown: table(number().nullable()),
      phase: table(number().nullable()),
    }),
    boundary: object({
      sustained: list(boundaryPoint()),
      byVariant: list(
        object({
          ...limitingCase,
          kind: text(),
          atRest: z.literal(true).exactOptional(),
          perD: list(object({ d: number(), stable: list(stable) })),
        }),
      ),
      overshoot: crossings(),
      settling: crossings(),
      theory: theoryShape().exactOptional(),
    }),
    leftOut: object({ points: int(), trials: int() }).exactOptional(),
    divergences: list(divergedPoint).exactOptional(),
    safe: table(bool()),
    safeShare: number(),
    start: start.nullable(),
    startReason: text().nullable(),
    startCauses: list(
      object({ key: text(), factor: number(), text: text(), p: number(), d: number() }),
    ).exactOptional(),
    pinned: pinned.exactOptional(),
    confidence: axisConfidenceShape().exactOptional(),
  });

export const MAP_FORMAT = "gainscape.map/2";

export const mapSchema = object({
  format: z.literal(MAP_FORMAT),
  product: object({ name: z.literal("gainscape", expecting("gainscape")), version: text() }),
  airframe: object({ name: text(), version: text(), title: text(), digest: text() }),
  sweep: object({ name: text(), title: text(), digest: text() }),
  units: object({ p: text(), d: text(), i: text() }),
  limits: measures(() => number().nullable()),
  variants: list(object({ ...limitingCase, kind: text(), title: text(), axis: axis() }), MOST_VARIANTS),
  axes: perAxis({ roll: axisMap(), pitch: axisMap() }),
  ladder: ladderShape().exactOptional(),
  strips: stripsShape().exactOptional(),
  uncertainty: uncertaintyShape().exactOptional(),
  uncertaintyReason: text().exactOptional(),
  assumptions: list(text()),
  hover: record(object({ throttle: number(), rotorSpeed: number(), voltage: number() }), "a group"),
  provenance: object({
    command: text(),
    seed: number(),
    model: text(),
    sweep: text(),
    trials: number(),
    steps: number(),
  }),
  unsealed: z.literal(true).exactOptional(),
});
