// What a sweep says as it runs, a line of JSON each: theory's first answer, progress, the outcome at the end. For programs that
// want the first without waiting for the last.
import { z } from "zod";
import { canonicalJson } from "../base/canonical.js";
import { bool, expecting, int, object, text } from "../base/read-back.js";
import type { FirstAnswer } from "../map/first-answer.js";
import { firstAnswerShape } from "../map/first-answer-shape.js";
import type { SweepOutcome } from "./sweep-outcome.js";
import type { Progress } from "./tracked-runs.js";

const SWEEP_LINES_FORMAT = "gainscape.sweep-lines/1";

const STAGES = ["grid", "boundaries"] as const;

/** The outcome is that of --json, its keys beside `record`; of those only what every outcome has is described here. */
const axisOutcome = () => object({ start: object({}).nullable(), startReason: text().nullable() });

const lineSchema = z.discriminatedUnion("record", [
  object({ record: z.literal("theory"), format: z.literal(SWEEP_LINES_FORMAT), ...firstAnswerShape }),
  object({
    record: z.literal("progress"),
    stage: z.enum(STAGES, expecting(`one of ${STAGES.join(", ")}`)),
    trials: int(),
    cached: int(),
    of: int().nullable(),
  }),
  object({ record: z.literal("outcome"), roll: axisOutcome(), pitch: axisOutcome(), unchanged: bool() }),
]);

/** A line as it is read back. */
export type SweepLine = z.output<typeof lineSchema>;

/** What is written: the outcome with all its keys. */
type NewLine =
  | ({ readonly record: "theory" } & FirstAnswer)
  | ({ readonly record: "progress" } & Progress)
  | ({ readonly record: "outcome" } & SweepOutcome);

/** A line with its end. The first names the format. */
export const sweepLine = (line: NewLine): string =>
  `${canonicalJson(line.record === "theory" ? { format: SWEEP_LINES_FORMAT, ...line } : line)}\n`;

/** The line of a text, checked; ZodError or SyntaxError where it is none of a sweep's. */
export const parseSweepLine = (line: string): SweepLine => lineSchema.parse(JSON.parse(line));
