// Catalogues of the code as tables: units, measures, absences, verdicts, gates, exit codes, rooms.
import { GATES } from "../../src/base/gates.js";
import { ABSENCES, MEASURES, type MeasureId, VERDICT_LETTERS, VERDICTS } from "../../src/base/measures.js";
import { KIND_IDS, SCRIPT_KINDS } from "../../src/base/script-kinds.js";
import { KIND_NAMES, KINDS } from "../../src/base/units.js";
import { EXIT, EXIT_MEANINGS } from "../../src/cli/exit.js";
import { FAILING } from "../../src/map/worst.js";
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
    MEASURES.map(({ id, title, unit, better, limit, argues, always, readWith, why }) => [
      limitKey(id) === id || argues === null ? code(id) : `${code(id)}, in sweeps ${code(limitKey(id))}`,
      title,
      unit,
      better ?? `neither: read where ${readWith.map(code).join(" or ")} is worst`,
      limit === null ? "" : String(limit),
      argues === null ? "" : `${argues}${always ? ", whatever more P does" : ""}`,
      kindsShowing(id),
      why,
    ]),
  );

/** What the tail answers is shown by every kind. */
const kindsShowing = (id: MeasureId): string =>
  KIND_IDS.filter((kind) => (SCRIPT_KINDS[kind].measures as readonly MeasureId[]).includes(id)).join(", ") || "all";

export const scriptKindTable = (): string =>
  table(
    ["`kind`", "the window is judged for", "measures", "needs a command that", "in the climb"],
    KIND_IDS.map((kind) => {
      const { shows, measures, command, ladder } = SCRIPT_KINDS[kind];
      const climb = ladder === null ? "" : ladder.everyStep ? "every step" : "the last check";
      return [code(kind), shows, measures.map(code).join(", "), command ?? "", climb];
    }),
  );

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
        ? [verdict, "none", `${code(VERDICT_LETTERS.clean)}, where safe ${code(VERDICT_LETTERS.clean.toUpperCase())}`]
        : [verdict, String(1 << bit), code(VERDICT_LETTERS[verdict])],
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
