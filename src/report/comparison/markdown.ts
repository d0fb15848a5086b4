// The comparison as Markdown, for the page of a CI job.
import { gateOf } from "../../base/gates.js";
import type { AxisDrift, Drift } from "../../compare/format.js";
import { placeText } from "../../map/gain-text.js";
import type { OwnScale } from "../../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import {
  extremeWords,
  outcomeWords,
  pinnedRows,
  pinnedState,
  safeChange,
  sidesWords,
  startInDrawsWords,
  startWords,
  unjudgedWords,
} from "../../words/drift-words.js";
import {
  allowedWords,
  boundaryJudgedWords,
  OUTCOME_WORDS,
  readingWords,
  subjectWords,
} from "../../words/gate-words.js";
import { nextLine } from "../../words/next-words.js";
import { count } from "../../words/numbers.js";
import { gainUnits } from "../../words/own-words.js";
import { printable } from "../../words/printable.js";
import { STRIPS_LEAD, stripRows } from "../../words/strip-drift-words.js";
import { whyBasis, whyLine, whyTable } from "../../words/why-words.js";
import { type Cell, escaped, table } from "../markdown-parts.js";

/** One heading per comparison; text from files is escaped, so no name can become markup. */
export function renderDriftMarkdown(drift: Drift): string {
  const fit = printable(drift);
  const unjudged = unjudgedWords(fit);
  const first = [...AXES.map((name) => nextLine(fit, name)), whyLine(fit)].filter((line) => line !== null);
  const notes = [...(unjudged === null ? [] : [`${unjudged}.`]), ...fit.notes].map((note) => `\n> ${escaped(note)}\n`);
  return `## ${escaped(sidesWords(fit))}: ${outcomeWords(fit)}

${first.map((line) => `${escaped(line)}\n\n`).join("")}Sweep: ${escaped(fit.sweep.title)} (${escaped(fit.sweep.name)}). ${escaped(gainUnits(fit.own, fit.units))}
${notes.join("")}
${AXES.map((name) => pinnedPart(fit, name)).join("\n")}
### Gates

${table(["Gate", "Axis", "Seen", "Allowed", "Outcome"], gateRows(fit))}
### What moved

${table(["", ...AXES.map((name) => AXIS_TITLES[name])], movedRows(fit))}
${stripsPart(fit)}${whyPart(fit)}### What changed in the model

${changes(fit)}`;
}

function pinnedPart({ axes, own }: Drift, name: Axis): string {
  const { pinned, start } = axes[name];
  if (pinned === null) return `**${AXIS_TITLES[name]}**: no pinned tune. Starting tune ${startWords(own, start)}.\n`;
  const rows = pinnedRows(own, pinned).map((row) => [...row]);
  const title = `**${AXIS_TITLES[name]}, pinned ${placeText(own, pinned.after)}: ${pinnedState(pinned).title}**`;
  return `${title}\n\n${table(["", "Before", "Now"], rows)}`;
}

const gateRows = (drift: Drift): Cell[][] =>
  drift.gates.map((result) => {
    const outcome = OUTCOME_WORDS[result.outcome];
    const cells = [gateOf(result.gate).title, subjectWords(result), readingWords(drift, result), allowedWords(result)];
    return [...cells, result.outcome === "fail" ? { strong: outcome } : outcome];
  });

const movedRows = (drift: Drift): string[][] => [
  ["Boundary, judged at", ...AXES.map((name) => boundaryJudgedWords(drift, name))],
  ...MOVED.map(([title, say]) => [title, ...AXES.map((name) => say(drift.axes[name], drift.own))]),
  ...startsInDraws(drift),
];

/** A row where an axis says it. */
function startsInDraws({ axes }: Drift): string[][] {
  const words = AXES.map((name) => startInDrawsWords(axes[name].paired?.start));
  return words.every((one) => one === null) ? [] : [["Each side's start", ...words.map((one) => one ?? "none")]];
}

const MOVED: readonly (readonly [title: string, say: (axis: AxisDrift, own: OwnScale | null) => string])[] = [
  ["Boundary, lowest shift", ({ shift }, own) => extremeWords(own, shift, "lowest")],
  ["Boundary, highest shift", ({ shift }, own) => extremeWords(own, shift, "highest")],
  [
    "Safe points",
    ({ safe }) =>
      `${count(safe.before)} → ${count(safe.after)} (${count(safe.lost)} lost, ${count(safe.gained)} gained)${safeChange(safe)}`,
  ],
  ["Verdicts", ({ verdicts }) => `${count(verdicts.worsened)} worse, ${count(verdicts.improved)} better`],
  ["Starting tune", ({ start }, own) => startWords(own, start)],
];

/** Empty where a side judged none. */
function stripsPart(drift: Drift): string {
  const rows = stripRows(drift).map((row) => [row.gain, row.before, row.after, row.choice, row.upperEnd]);
  if (rows.length === 0) return "";
  const heads = ["Gain", "Before", "Now", "Gain moved", "Upper end moved"];
  return `### Yaw and I\n\n${STRIPS_LEAD}\n\n${table(heads, rows)}\n`;
}

/** Empty where theory has nothing to say. */
function whyPart(drift: Drift): string {
  const { why } = drift;
  const found = whyTable(drift);
  if (why == null || found === null) return "";
  const rows = found.rows.map((row) => [...row]);
  return `### Why it moved\n\n${escaped(whyBasis(why))}\n\n${table(["", ...found.heads], rows)}\n`;
}

function changes({ model }: Drift): string {
  if (model.length === 0) return "Nothing.\n";
  const rows = model.map(({ key, before, after }) => [`${key}`, before ?? "absent", after ?? "absent"]);
  return table(["Key", "Before", "Now"], rows);
}
