// Every generated part of a document: where it stands, and what makes it.
import type { z } from "zod";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { airframeSchema } from "../../src/airframe/schema.js";
import { GATES } from "../../src/base/gates.js";
import { answersSchema } from "../../src/estimate/answers.js";
import { readYaml } from "../../src/files/yaml.js";
import { flightSchema } from "../../src/flight/schema.js";
import { readSweep } from "../../src/flow/read.js";
import { gateKey, sweepSchema } from "../../src/sweep/schema.js";
import { scriptSchema } from "../../src/sweep/script-schema.js";
import { readOne } from "../../src/translator/sources.js";
import { translationStages } from "../../src/translator/stages.js";
import { SMALL_MODEL } from "../fixtures/small-model.js";
import { parseSmallSweep, SMALL_SWEEP } from "../fixtures/small-sweep.js";
import {
  absenceTable,
  exitTable,
  gateTable,
  measureTable,
  roomTable,
  scriptKindTable,
  unitTable,
  verdictTable,
} from "./catalogues.js";
import { keysOf } from "./keys.js";
import { table } from "./marks.js";
import { ANSWER_NOTES, FLIGHT_NOTES, MODEL_NOTES, SCRIPT_NOTES, SWEEP_NOTES } from "./notes.js";

export interface Generated {
  readonly file: string;
  readonly name: string;
  readonly text: () => string;
}

/** Assumptions by key, as the program prints them: `wash.rms: 12 %, an estimate`. */
const assumptions = (lines: readonly string[]): Readonly<Record<string, string>> =>
  Object.fromEntries(lines.map((line) => [line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 2)]));

const gateDefaults = Object.fromEntries(
  GATES.map((gate) => [`gates.${gateKey(gate)}`, gate.unit === "%" ? `${gate.allowed} %` : "on"]),
);

/** A row per key; throws where nothing says what a key that may be left out stands for. */
export function keyTable(
  schema: z.ZodType,
  notes: Readonly<Record<string, string>>,
  assumed: Readonly<Record<string, string>>,
): string {
  const keys = keysOf(schema);
  const strangers = Object.keys(notes).filter((path) => !keys.some((key) => key.path === path));
  if (strangers.length > 0) throw new Error(`test/documents/notes.ts has notes on no key: ${strangers.join(", ")}`);
  const rows = keys.map(({ path, holds, needed }) => {
    const otherwise = [assumed[path], notes[path]].filter((words) => words !== undefined).join("; ");
    if (!needed && otherwise === "")
      throw new Error(`say in test/documents/notes.ts what stands for ${path} where it is left out`);
    return [`\`${path}\``, holds, needed ? "yes" : "", otherwise];
  });
  return table(["key", "holds", "needed", "where left out; notes"], rows);
}

const modelAssumed = () => assumptions(parseAirframe(readYaml("models/x.yaml", SMALL_MODEL)).defaulted);
const sweepAssumed = () => ({
  ...gateDefaults,
  ...assumptions([
    ...parseSmallSweep(SMALL_SWEEP).defaulted,
    ...readSweep("test/fixtures/strips.yaml").value.defaulted,
  ]),
});

/** The example of the translator's README, stage by stage. */
const stages = (): string =>
  translationStages(readOne("test/translator/smooth.ts", "smooth"), { stages: 1 })
    .map(({ title, text }) => `**${title[0]?.toUpperCase()}${title.slice(1)}**\n\n\`\`\`text\n${text}\n\`\`\``)
    .join("\n\n");

export const GENERATED: readonly Generated[] = [
  { file: "DEVELOPERS.md", name: "rooms", text: roomTable },
  { file: "models/README.md", name: "answer keys", text: () => keyTable(answersSchema, ANSWER_NOTES, {}) },
  { file: "models/README.md", name: "model keys", text: () => keyTable(airframeSchema, MODEL_NOTES, modelAssumed()) },
  { file: "models/README.md", name: "flight keys", text: () => keyTable(flightSchema, FLIGHT_NOTES, {}) },
  { file: "models/README.md", name: "units", text: unitTable },
  { file: "sweeps/README.md", name: "sweep keys", text: () => keyTable(sweepSchema, SWEEP_NOTES, sweepAssumed()) },
  { file: "sweeps/README.md", name: "script keys", text: () => keyTable(scriptSchema, SCRIPT_NOTES, {}) },
  { file: "sweeps/README.md", name: "script kinds", text: scriptKindTable },
  { file: "reports/README.md", name: "verdicts", text: verdictTable },
  { file: "reports/README.md", name: "gates", text: gateTable },
  { file: "src/response/README.md", name: "measures", text: measureTable },
  { file: "src/response/README.md", name: "absences", text: absenceTable },
  { file: "src/run/README.md", name: "exit codes", text: exitTable },
  { file: "src/translator/README.md", name: "stages", text: stages },
];
