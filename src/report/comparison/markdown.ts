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
import { allowedWords, boundaryJudgedWords, OUTCOME_WORDS, readingWords } from "../../words/gate-words.js";
import { nextLine } from "../../words/next-words.js";
import { count } from "../../words/numbers.js";
import { gainUnits } from "../../words/own-words.js";
import { printable } from "../../words/printable.js";
import { whyBasis, whyLine, whyTable } from "../../words/why-words.js";

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
${whyPart(fit)}### What changed in the model

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
    const cells = [gateOf(result.gate).title, result.axis, readingWords(drift, result), allowedWords(result)];
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

type Cell = string | { readonly strong: string };

function table(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  const cellText = (cell: Cell) => (typeof cell === "string" ? escaped(cell) : `**${escaped(cell.strong)}**`);
  const body = rows.map((row) => line(row.map(cellText)));
  return `${[line(head), line(head.map(() => "---")), ...body].join("\n")}\n`;
}

/** Every character that Markdown or HTML could read as markup. */
const escaped = (text: string): string =>
  unlinked(text)
    .replace(/[\\`*_{}[\]#|~!]/g, (mark) => `\\${mark}`)
    .replace(/[&<>]/g, (mark) => ENTITIES[mark] ?? mark);

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;" };

/**
 * Addresses, mentions and numbers of issues become links without any markup, also where each of their characters is
 * escaped: a blank in them is what no reader links across.
 */
const unlinked = (text: string): string =>
  text
    .replace(/:(?=\/\/)/g, ": ")
    .replace(/\bwww\.(?=\S)/gi, (start) => `${start} `)
    .replace(/\b(mailto|xmpp|tel|data|javascript):(?=\S)/gi, (start) => `${start} `)
    .replace(/@(?=\S)/g, "@ ")
    .replace(/#(?=\d)/g, "# ");
