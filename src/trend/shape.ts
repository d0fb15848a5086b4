// The shape of a record, for reading it back. Unknown keys are accepted: a later version may add some.
import { z } from "zod";
import { MEASURE_IDS } from "../base/measures.js";
import { bool, expecting, int, list, number, object, positive, text, within } from "../base/read-back.js";
import { MOST_VARIANTS } from "../base/sizes.js";
import { dateFault } from "./date.js";

/** D lines of a record. */
export const MOST_D = 5;

const digest = () => text().regex(/^[0-9a-f]{64}$/, expecting("64 digits of a SHA-256"));
const end = () => z.union([z.number(), z.enum(["above", "none"])], expecting('a number, "above" or "none"'));
const ends = () => list(end(), MOST_D);
const seeded = () => object({ value: number(), range: z.tuple([number(), number()], expecting("two numbers")) });

const start = () =>
  object({
    p: number(),
    d: number(),
    i: number(),
    margins: object({ gainUp: number().nullable(), gainDown: number().nullable(), phase: number() }),
    seeded: z.object(Object.fromEntries(MEASURE_IDS.map((id) => [id, seeded().exactOptional()]))),
  });

const strip = () => object({ asked: text(), choice: number().nullable(), to: end() });

/** Every list has an item per D. */
const perD = (axis: { readonly d: readonly unknown[]; readonly boundary: readonly unknown[] }, lists: unknown[][]) =>
  [axis.boundary, ...lists].every(({ length }) => length === axis.d.length);

const axis = () =>
  object({
    lines: text(),
    top: positive(),
    d: list(number(), MOST_D),
    boundary: ends(),
    safe: list(bool(), MOST_D),
    levels: list(
      object({
        throttle: z.union([z.number(), z.literal("hover")], expecting('a number or "hover"')),
        condition: text(),
        boundary: ends(),
      }),
      MOST_VARIANTS,
    ),
    safeShare: within(0, 1),
    start: start().nullable(),
    i: strip().exactOptional(),
  }).refine((one) => perD(one, [one.safe, ...one.levels.map(({ boundary }) => boundary)]), {
    error: "its lists have not one item per D",
  });

const TREND_FORMAT = "gainscape.trend/1";

export const recordShape = object({
  format: z.literal(TREND_FORMAT, expecting(TREND_FORMAT)),
  date: text().refine((date) => dateFault(date) === null, { error: ({ input }) => dateFault(String(input)) ?? "" }),
  product: text(),
  airframe: object({ name: text(), version: text(), digest: digest() }),
  sweep: text(),
  question: digest(),
  plan: digest(),
  seed: int(),
  tolerance: within(1e-6, 1),
  axes: object({ roll: axis(), pitch: axis() }),
  yaw: strip().exactOptional(),
  seal: text(),
});
