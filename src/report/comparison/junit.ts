// The judge's decisions as JUnit XML, which CI servers read as test results: a suite per comparison, a case per gate
// and axis. No times: a gate takes none, and the same maps give the same bytes.
import { gateOf } from "../../base/gates.js";
import type { Drift, GateResult } from "../../compare/format.js";
import { sidesWords } from "../../words/drift-words.js";
import { allowedWords, judgedWords, readingWords, subjectWords } from "../../words/gate-words.js";
import { printable } from "../../words/printable.js";
import { stripLine, stripRows } from "../../words/strip-drift-words.js";
import { gateWhy, whyLine } from "../../words/why-words.js";

/** One document for any number of comparisons. */
export function renderJunit(drifts: readonly Drift[]): string {
  const fit = drifts.map(printable);
  const totals = attributes(
    counted(
      fit.flatMap(({ gates }) => gates),
      false,
    ),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<testsuites name="gainscape"${totals}>
${fit.map(suite).join("\n")}
</testsuites>
`;
}

function suite(drift: Drift): string {
  const name = `${drift.sweep.name}: ${sidesWords(drift)}`;
  const why = whyLine(drift);
  const properties = [
    ["sweep", drift.sweep.name],
    ["base", `${drift.base.airframe.name} ${drift.base.airframe.version}`],
    ["base plan", drift.base.planDigest],
    ["candidate", `${drift.candidate.airframe.name} ${drift.candidate.airframe.version}`],
    ["candidate plan", drift.candidate.planDigest],
    ["outcome", drift.outcome],
    ...(why === null ? [] : [["why", why]]),
    ...drift.gates.flatMap((result) => {
      const judged = judgedWords(result);
      return judged === null ? [] : [[`${subjectWords(result)}: ${gateOf(result.gate).title}, judged at`, judged]];
    }),
    ...stripRows(drift).map((row) => ["strip", stripLine(row)]),
    ...drift.notes.map((note) => ["note", note]),
  ];
  return `  <testsuite${attributes({ name })}${attributes(counted(drift.gates, true))}>
    <properties>
${properties.map(([key = "", value = ""]) => `      <property${attributes({ name: key, value })}/>`).join("\n")}
    </properties>
${drift.gates.map((result) => testCase(drift, result)).join("\n")}
  </testsuite>`;
}

function testCase(drift: Drift, result: GateResult): string {
  const { title, why } = gateOf(result.gate);
  const classname = `gainscape.${drift.sweep.name}.${drift.candidate.airframe.name}-${drift.candidate.airframe.version}`;
  const open = `    <testcase${attributes({ classname, name: `${subjectWords(result)}: ${title}` })}`;
  const reading = readingWords(drift, result);
  if (result.outcome === "pass") return `${open}/>`;
  if (result.outcome === "skipped")
    return `${open}>\n      <skipped${attributes({ message: reading })}/>\n    </testcase>`;
  const because = gateWhy(drift, result);
  const message = `${reading}; allowed: ${allowedWords(result)}${because === null ? "" : `; why: ${because}`}`;
  return `${open}>
      <failure${attributes({ message, type: "regression" })}>${escaped(`${title} (${subjectWords(result)}): ${message}. ${why}`)}</failure>
    </testcase>`;
}

function counted(gates: readonly GateResult[], withSkipped: boolean): Record<string, string> {
  const count = (outcome: GateResult["outcome"]) => String(gates.filter((gate) => gate.outcome === outcome).length);
  const all = { tests: String(gates.length), failures: count("fail"), errors: "0" };
  return withSkipped ? { ...all, skipped: count("skipped") } : all;
}

const attributes = (all: Readonly<Record<string, string>>): string =>
  Object.entries(all)
    .map(([name, value]) => ` ${name}="${escaped(value)}"`)
    .join("");

/** Also the characters XML 1.0 forbids outright: lone surrogates and the two non-characters of the plane. */
const escaped = (text: string): string =>
  text
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]|[\ufffe\uffff]/g, "\ufffd")
    .replace(/[&<>"']/g, (mark) => `&#${mark.charCodeAt(0)};`);
