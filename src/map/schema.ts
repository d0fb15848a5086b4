// The shape of map.json, for reading it back. Keys it does not know are kept: a later version may add some.
import { z } from "zod";
import { keptModel } from "../airframe/kept-shape.js";
import { MEASURE_IDS, VERDICTS } from "../base/measures.js";
import { list, number, part, record, text, told, whole, yes } from "../base/read-back.js";
import { MOST_FLIGHTS, MOST_GRID_LINES } from "../base/sizes.js";
import { keptPlan } from "../plan/kept-shape.js";
import { ladderShape } from "./ladder-shape.js";
import { axis, culprit, gains, perAxis, seen } from "./shapes.js";
import { theoryShape } from "./theory-shape.js";

export const gridLine = () => list(number(), MOST_GRID_LINES);
const table = <S extends z.ZodType>(item: S) => list(list(item));

const verdict = () => z.enum(VERDICTS, told(`one of ${VERDICTS.join(", ")}`));
const measures = <S extends z.ZodType>(item: () => S) => {
  const shape = Object.fromEntries(MEASURE_IDS.map((id) => [id, item()]));
  return part(shape as Record<(typeof MEASURE_IDS)[number], S>);
};

const boundaryPoint = () =>
  part({
    d: number(),
    p: number().nullable(),
    reason: z.enum(["never", "always"], told("never or always")).exactOptional(),
    from: number().exactOptional(),
    fromBy: part(culprit).exactOptional(),
    others: list(
      z.tuple([number().nullable(), number().nullable()], told("two ends of a stable range")),
    ).exactOptional(),
    script: text().exactOptional(),
    throttle: number().exactOptional(),
    rate: number().exactOptional(),
    condition: text().exactOptional(),
  });

const pair = () => z.tuple([number(), number()], told("two numbers"));

const stable = part({
  from: number(),
  to: number(),
  fromOpen: yes(),
  toOpen: yes(),
  width: pair(),
});

const crossings = () => list(part({ d: number(), p: list(number()) }));
const room = () => part({ limit: text(), culprit: part(culprit).nullable(), factor: number().nullable() });

const start = part({
  p: number(),
  d: number(),
  i: number(),
  own: gains().nullable(),
  limitedBy: text(),
  room: part({ pUp: room(), pDown: room(), dUp: room(), dDown: room() }),
  measures: seen(),
  otherSeeds: part({ seeds: whole(), ranges: z.record(text(), pair(), told("a group of measures")) }).exactOptional(),
  margins: part({ gainUp: number().nullable(), gainDown: number().nullable(), phase: number() }),
});

const pinned = part({
  p: number(),
  d: number(),
  own: gains().nullable(),
  verdict: verdict(),
  decidedBy: part(culprit).nullable(),
  measures: seen(),
  margins: part({ gainUp: number().nullable(), gainDown: number().nullable(), phase: number() }),
  safe: yes(),
  boundary: boundaryPoint(),
});

const diverged = part({ ...culprit, p: number(), d: number(), after: number() });

const axisMap = () =>
  part({
    verdict: table(verdict()),
    reasons: table(whole()),
    decidedBy: table(whole()),
    measures: measures(() => table(number().nullable())),
    absent: measures(() => table(whole())),
    margins: part({
      gainUp: table(number().nullable()),
      gainDown: table(number().nullable()),
      phase: table(number().nullable()),
    }),
    boundary: part({
      sustained: list(boundaryPoint()),
      byCondition: list(
        part({
          ...culprit,
          kind: text(),
          atRest: z.literal(true).exactOptional(),
          perD: list(part({ d: number(), stable: list(stable) })),
        }),
      ),
      overshoot: crossings(),
      settling: crossings(),
      theory: theoryShape().exactOptional(),
    }),
    diverged: list(diverged).exactOptional(),
    safe: table(yes()),
    safeShare: number(),
    start: start.nullable(),
    startReason: text().nullable(),
    pinned: pinned.exactOptional(),
  });

export const MAP_FORMAT = "gainscape.map/1";

export const mapSchema = part({
  format: z.literal(MAP_FORMAT),
  product: part({ name: z.literal("gainscape", told("gainscape")), version: text() }),
  airframe: part({ name: text(), version: text(), title: text(), digest: text() }),
  sweep: part({ name: text(), title: text(), digest: text() }),
  grid: part({ p: gridLine(), d: gridLine(), units: part({ p: text(), d: text(), i: text() }) }),
  limits: measures(() => number().nullable()),
  variants: list(part({ ...culprit, kind: text(), title: text(), axis: axis() }), MOST_FLIGHTS),
  axes: perAxis({ roll: axisMap(), pitch: axisMap() }),
  ladder: ladderShape().exactOptional(),
  assumptions: list(text()),
  hover: record(part({ throttle: number(), rotorSpeed: number(), voltage: number() }), "a group"),
  provenance: part({
    command: text(),
    seed: number(),
    model: text(),
    sweep: text(),
    trials: number(),
    steps: number(),
  }),
  model: keptModel(),
  plan: keptPlan(),
  unsealed: z.literal(true).exactOptional(),
});
