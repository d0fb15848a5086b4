// Catalogues of the code as tables: units, measures, absences, verdicts, gates, exit codes, rooms.
import { GATES } from "../../src/base/gates.js";
import { ABSENCES, MEASURE_IDS, MEASURES, VERDICTS } from "../../src/base/measures.js";
import { KIND_NAMES, KINDS } from "../../src/base/units.js";
import { EXIT, EXIT_MEANINGS } from "../../src/cli/exit.js";
import { LETTERS } from "../../src/compare/baseline.js";
import { FAILING } from "../../src/map/worst.js";
import { emptyAnswers, type QuestionKind } from "../../src/response/answer.js";
import { traceOf } from "../../src/response/reader.js";
import { evaluateTrial } from "../../src/response/respond.js";
import { gateKey, limitKey } from "../../src/sweep/schema.js";
import { ROOMS, type Room } from "../rooms.js";
import { table } from "./marks.js";

const code = (text: string): string => `\`${text}\``;

export const unitTable = (): string =>
  table(
    ["kind", "units a file may use"],
    KIND_NAMES.map((kind) => [
      KINDS[kind].title.replace(/^an? /, ""),
      Object.keys(KINDS[kind].units).map(code).join(", "),
    ]),
  );

export const measureTable = (): string =>
  table(
    ["measure", "title", "unit", "better", "limit by default", "beyond it", "shown by", "what it is"],
    MEASURES.map(({ id, title, unit, better, limit, argues, always, beside, why }) => [
      limitKey(id) === id || argues === null ? code(id) : `${code(id)}, in sweeps ${code(limitKey(id))}`,
      title,
      unit,
      better ?? `neither: read where ${beside.map(code).join(" or ")} is worst`,
      limit === null ? "" : String(limit),
      argues === null ? "" : `${argues}${always ? ", whatever more P does" : ""}`,
      showing(MEASURE_IDS.indexOf(id)),
      why,
    ]),
  );

const KINDS_OF_SCRIPTS: readonly QuestionKind[] = ["nudge", "stop", "blip", "wobble", "hover"];

/** Kinds of scripts that show a measure, found by asking a trial of each. */
function showing(measure: number): string {
  const kinds = KINDS_OF_SCRIPTS.filter((kind) => {
    const answers = emptyAnswers();
    const trace = Float64Array.from({ length: 2000 }, (_, k) => Math.exp(-k / 500) * Math.cos(k / 20));
    const effort = { heat: 1, commandRms: 0.1 };
    evaluateTrial(
      {
        kind,
        period: 1e-3,
        command: new Float64Array(trace.length),
        window: { from: 200, to: 1000, effort: true },
        tail: { from: 1000, to: 2000 },
        stop: { from: 150, level: 1 },
        restHeat: 1,
      },
      { ...traceOf(trace), fastest: 1, limited: 0, effort },
      answers,
    );
    return ABSENCES[answers.absent[measure]] !== "this script does not show it";
  });
  return kinds.length === KINDS_OF_SCRIPTS.length ? "all" : kinds.join(", ");
}

export const absenceTable = (): string =>
  table(
    ["code", "reason", "counts as"],
    ABSENCES.map((reason, at) => [
      String(at),
      reason,
      at === 0 ? "the value" : FAILING.includes(at) ? "worse than any value, beyond any limit" : "nothing",
    ]),
  );

export const verdictTable = (): string =>
  table(
    ["verdict", "bit in `reasons`", "letter in a baseline"],
    VERDICTS.map((verdict, bit) =>
      verdict === "clean"
        ? [verdict, "none", `${code(LETTERS.clean)}, where safe ${code(LETTERS.clean.toUpperCase())}`]
        : [verdict, String(1 << bit), code(LETTERS[verdict])],
    ),
  );

export const gateTable = (): string =>
  table(
    ["gate", "in `drift.json`", "value", "unit", "allowed by default", "why"],
    GATES.map((gate) => [code(gateKey(gate)), code(gate.id), gate.measures, gate.unit, String(gate.allowed), gate.why]),
  );

export const exitTable = (): string =>
  table(
    ["exit code", "meaning"],
    Object.entries(EXIT).map(([name, exit]) => [String(exit), EXIT_MEANINGS[name as keyof typeof EXIT]]),
  );

/** A room that may import most others says which it may not. */
function reach(name: string, { imports, types = [] }: Room): string {
  const others = Object.keys(ROOMS).filter((other) => other !== name && other !== "");
  const barred = others.filter((other) => !imports.includes(other));
  const values = imports.length > barred.length ? `all but ${barred.join(", ")}` : imports.join(", ") || "nothing";
  return types.length === 0 ? values : `${values}; types of ${types.join(", ")}`;
}

export const roomTable = (): string =>
  table(
    ["room", "what lives there", "may import", "packages"],
    Object.entries(ROOMS).map(([name, room]) => [
      code(name === "" ? "index.ts" : name),
      room.holds,
      reach(name, room),
      room.packages?.join(", ") ?? "none",
    ]),
  );
