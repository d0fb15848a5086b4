// Records written by hand: a craft whose boundary is what the test says.
import { digestOf } from "../../src/base/digest.js";
import { sealed } from "../../src/base/seal.js";
import type { AxisRecord, EndOfRange, StripRecord, TrendRecord } from "../../src/trend/format.js";

export interface Wanted {
  readonly version?: string;
  /** Names the model's digest; the version unless given. */
  readonly craft?: string;
  readonly name?: string;
  readonly date?: string;
  readonly product?: string;
  readonly seed?: number;
  readonly sweep?: string;
  readonly question?: string;
  /** Of roll, per D 0, 1 and 2. */
  readonly boundary?: readonly EndOfRange[];
  readonly roll?: Partial<AxisRecord>;
  readonly yaw?: StripRecord;
}

const start = {
  p: 10,
  d: 1,
  i: 25,
  margins: { gainUp: 10, gainDown: null, phase: 50 },
  seeded: {},
};

const axis: AxisRecord = {
  lines: "0123456789abcdef",
  top: 60,
  d: [0, 1, 2],
  boundary: [30, 40, 50],
  safe: [true, true, false],
  levels: [
    { throttle: "hover", condition: "fresh pack", boundary: [35, 45, "above"] },
    { throttle: 70, condition: "tired pack", boundary: [30, 40, 50] },
  ],
  safeShare: 0.2,
  start,
};

export function record({
  version = "r1",
  craft = version,
  name = "Dunlin",
  date = "2026-01-01",
  product = "0.1.0",
  seed = 1,
  sweep = "nightly",
  question = "",
  boundary,
  roll = {},
  yaw,
}: Wanted = {}): TrendRecord {
  return sealed({
    format: "gainscape.trend/1",
    date,
    product,
    airframe: { name, version, digest: digestOf([name, craft]) },
    sweep,
    question: digestOf(question),
    plan: digestOf([name, craft, seed]),
    seed,
    tolerance: 0.01,
    axes: { roll: { ...axis, ...(boundary === undefined ? {} : { boundary }), ...roll }, pitch: axis },
    ...(yaw === undefined ? {} : { yaw }),
  } as const);
}

/** The start of the records, with parts changed. */
export const startWith = (change: Partial<NonNullable<AxisRecord["start"]>>): NonNullable<AxisRecord["start"]> => ({
  ...start,
  ...change,
});
