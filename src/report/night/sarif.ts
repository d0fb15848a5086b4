// Failed and unjudged gates as SARIF, which services that show a pull request put beside its lines: Static Analysis Results
// Interchange Format 2.1.0, OASIS Standard, 27 March 2020.
import type { Location, Log, Result } from "sarif";
import { canonicalJson } from "../../base/canonical.js";
import { GATES, gateOf } from "../../base/gates.js";
import type { Drift, GateResult } from "../../compare/format.js";
import { sidesWords } from "../../words/drift-words.js";
import { allowedWords, readingWords, subjectWords } from "../../words/gate-words.js";
import { printable } from "../../words/printable.js";
import { gateWhy } from "../../words/why-words.js";
import { changesWords, type NightPair } from "./night.js";

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/** One result per gate that did not pass, at the line of the candidate's file that changed. */
export function renderSarif(pairs: readonly NightPair[], version: string): string {
  const log: Log = {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "gainscape",
            semanticVersion: version,
            rules: GATES.map(({ id, title, measures, why }) => ({
              id,
              name: title,
              shortDescription: { text: title },
              fullDescription: { text: `${measures}. ${why}` },
            })),
          },
        },
        results: printable(pairs).flatMap((pair) => pair.drift.gates.flatMap((gate) => resultOf(pair, gate) ?? [])),
      },
    ],
  };
  return `${canonicalJson(log)}\n`;
}

function resultOf(pair: NightPair, result: GateResult): Result | null {
  if (result.outcome === "pass" || result.skipReason === "switched off") return null;
  const { drift } = pair;
  const judged = result.outcome === "fail";
  const where = `${sidesWords(drift)}, ${drift.sweep.title}, ${subjectWords(result)}: ${gateOf(result.gate).title}`;
  const why = gateWhy(drift, result);
  const allowed = judged ? `; allowed: ${allowedWords(result)}` : "";
  return {
    ruleId: result.gate,
    kind: judged ? "fail" : "notApplicable",
    level: judged ? "error" : "none",
    message: {
      text: `${where}: ${readingWords(drift, result)}${allowed}. Changed: ${changesWords(drift)}.${why === null ? "" : ` Why: ${why}.`}`,
    },
    locations: [locationOf(pair)],
    partialFingerprints: { "gate/v1": fingerprint(drift, result) },
  };
}

/** The same finding from night to night, whatever its numbers. */
const fingerprint = ({ sweep, base, candidate }: Drift, { gate, axis }: GateResult): string =>
  [
    sweep.name,
    base.airframe.name,
    base.airframe.version,
    candidate.airframe.name,
    candidate.airframe.version,
    axis,
    gate,
  ]
    .map(encodeURIComponent)
    .join("/");

function locationOf({ drift, changed }: NightPair): Location {
  const file = (changed?.file ?? drift.candidate.model).replaceAll("\\", "/");
  return {
    physicalLocation: {
      artifactLocation: { uri: encodeURI(file) },
      region: changed === null ? { startLine: 1 } : { startLine: changed.line, startColumn: changed.column },
    },
  };
}
