// JSON schemas of the file formats, so that an editor completes keys and marks mistakes while a file is written.
import { z } from "zod";
import { airframeSchema } from "../airframe/schema.js";
import { lineJson } from "../base/canonical.js";
import { answersSchema } from "../estimate/answers.js";
import { flightSchema } from "../flight/schema.js";
import { sweepSchema } from "../sweep/schema.js";
import { scriptSchema } from "../sweep/script-schema.js";

const SCHEMAS = {
  "models/schema/airframe-1.schema.json": ["A craft as physics, format gainscape.airframe/1", airframeSchema],
  "sweeps/schema/sweep-1.schema.json": ["The question of a run, format gainscape.sweep/1", sweepSchema],
  "sweeps/schema/script-1.schema.json": [
    "What is commanded and what the air does, format gainscape.script/1",
    scriptSchema,
  ],
  "models/schema/answers-1.schema.json": ["What a builder knows, format gainscape.answers/1", answersSchema],
  "models/schema/flight-1.schema.json": ["What was flown, logged and seen, format gainscape.flight/1", flightSchema],
} as const;

/** Paths below the package and texts of all schemas. */
export const editorSchemas = (): readonly (readonly [file: string, text: string])[] =>
  Object.entries(SCHEMAS).map(([file, [title, schema]]) => {
    const { $schema, ...rest } = z.toJSONSchema(schema, { io: "input", target: "draft-7" });
    return [file, `${lineJson({ $schema, title, ...rest })}\n`];
  });
