// The comparison in plain lines, for a terminal.

import { gateOf } from "../../base/gates.js";
import type { Drift, ShiftLine } from "../../compare/format.js";
import { placeText } from "../../map/gain-text.js";
import type { OwnScale } from "../../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import {
  extremeWords,
  levelWords,
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
import { lowerFirst } from "../../words/limit-words.js";
import { nextLine } from "../../words/next-words.js";
import { count } from "../../words/numbers.js";
import { gainUnits } from "../../words/own-words.js";
import { printable } from "../../words/printable.js";
import { stripLine, stripRows } from "../../words/strip-drift-words.js";
import { axisWhyLines, whyLine } from "../../words/why-words.js";

/** Verdict first, then the pinned tune, the gates, and what moved; control characters removed, no colour. */
export function renderDriftTable(drift: Drift): string {
  const fit = printable(drift);
  const unjudged = unjudgedWords(fit);
  const why = whyLine(fit);
  const head = `${sidesWords(fit)}, ${fit.sweep.title}: ${outcomeWords(fit)}.${unjudged === null ? "" : ` ${unjudged}.`}`;
  return `${[
    head,
    ...(why === null ? [] : [why]),
    gainUnits(fit.own, fit.units),
    ...AXES.map((name) => nextLine(fit, name)).filter((line) => line !== null),
    ...AXES.flatMap((name) => pinnedLines(fit, name)),
    "",
    ...columns([["Gate", "Axis", "Seen", "Allowed", ""], ...gateRows(fit)]),
    "",
    ...AXES.flatMap((name) => movedLines(fit, name)),
    ...stripRows(fit).map(stripLine),
    ...fit.notes,
  ].join("\n")}\n`;
}

function pinnedLines({ axes, own }: Drift, name: Axis): string[] {
  const { pinned, start } = axes[name];
  if (pinned === null) return [`${AXIS_TITLES[name]}: no pinned tune; starting tune ${startWords(own, start)}.`];
  const facts = pinnedRows(own, pinned).map(([title, before, after]) => `${lowerFirst(title)} ${before} → ${after}`);
  return [
    `${AXIS_TITLES[name]}, pinned ${placeText(own, pinned.after)}: ${pinnedState(pinned).title}. ${facts.join(", ")}.`,
  ];
}

const gateRows = (drift: Drift): string[][] =>
  drift.gates.map((result) => [
    gateOf(result.gate).title,
    subjectWords(result),
    readingWords(drift, result),
    allowedWords(result),
    OUTCOME_WORDS[result.outcome],
  ]);

function movedLines(drift: Drift, name: Axis): string[] {
  const { shift, byLevel, safe, verdicts, start, paired } = drift.axes[name];
  const inDraws = startInDrawsWords(paired?.start);
  const levels = byLevel.map((level) => `  at ${levelWords(level)}: ${range(drift.own, level)}`);
  return [
    `${AXIS_TITLES[name]}: sustained boundary ${range(drift.own, shift)}; judged at ${boundaryJudgedWords(drift, name)}`,
    ...levels,
    `  safe points ${count(safe.before)} → ${count(safe.after)} (${count(safe.lost)} lost, ${count(safe.gained)} gained)${safeChange(safe)}; verdicts: ${count(verdicts.worsened)} worse, ${count(verdicts.improved)} better`,
    `  starting tune ${startWords(drift.own, start)}`,
    ...(inDraws === null ? [] : [`  each side's start ${inDraws}`]),
    ...axisWhyLines(drift, name).map((line) => `  why: ${line}`),
  ];
}

function range(own: OwnScale | null, line: ShiftLine): string {
  const [low, high] = [extremeWords(own, line, "lowest"), extremeWords(own, line, "highest")];
  return low === high ? low : `${low} to ${high}`;
}

/** Columns as wide as their widest cell. */
function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((row) => row[k]?.length ?? 0)));
  return rows.map((row) =>
    row
      .map((cell, k) => cell.padEnd(widths[k] ?? 0))
      .join("  ")
      .trimEnd(),
  );
}
