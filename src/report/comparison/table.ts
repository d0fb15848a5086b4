// The comparison in plain lines, for a terminal.

import { gateOf } from "../../base/gates.js";
import type { AxisDrift, Drift } from "../../compare/format.js";
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
  unitWords,
  unjudgedWords,
} from "../../words/drift-words.js";
import { allowedWords, boundaryJudgedWords, OUTCOME_WORDS, readingWords } from "../../words/gate-words.js";
import { lowerFirst } from "../../words/limit-words.js";
import { count, toThreeDigits } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";

/** Verdict first, then the pinned tune, the gates, and what moved; control characters removed, no colour. */
export function renderDriftTable(drift: Drift): string {
  const fit = printable(drift);
  const unjudged = unjudgedWords(fit);
  const head = `${sidesWords(fit)}, ${fit.sweep.title}: ${outcomeWords(fit)}.${unjudged === null ? "" : ` ${unjudged}.`}`;
  return `${[
    head,
    unitWords(fit),
    ...AXES.flatMap((name) => pinnedLines(fit.axes[name], name)),
    "",
    ...columns([["Gate", "Axis", "Seen", "Allowed", ""], ...gateRows(fit)]),
    "",
    ...AXES.flatMap((name) => movedLines(fit, name)),
    ...fit.notes,
  ].join("\n")}\n`;
}

function pinnedLines({ pinned, start }: AxisDrift, name: Axis): string[] {
  if (pinned === null) return [`${AXIS_TITLES[name]}: no pinned tune; starting tune ${startWords(start)}.`];
  const { p, d } = pinned.after;
  const facts = pinnedRows(pinned).map(([title, before, after]) => `${lowerFirst(title)} ${before} → ${after}`);
  return [
    `${AXIS_TITLES[name]}, pinned P ${toThreeDigits(p)}, D ${toThreeDigits(d)}: ${pinnedState(pinned).title}. ${facts.join(", ")}.`,
  ];
}

const gateRows = (drift: Drift): string[][] =>
  drift.gates.map((result) => [
    gateOf(result.gate).title,
    result.axis,
    readingWords(drift, result),
    allowedWords(result),
    OUTCOME_WORDS[result.outcome],
  ]);

function movedLines(drift: Drift, name: Axis): string[] {
  const { shift, byLevel, safe, verdicts, start, paired } = drift.axes[name];
  const inDraws = startInDrawsWords(paired?.start);
  const levels = byLevel.map((level) => `  at ${levelWords(level)}: ${range(level)}`);
  return [
    `${AXIS_TITLES[name]}: sustained boundary ${range(shift)}; judged at ${boundaryJudgedWords(drift, name)}`,
    ...levels,
    `  safe points ${count(safe.before)} → ${count(safe.after)} (${count(safe.lost)} lost, ${count(safe.gained)} gained)${safeChange(safe)}; verdicts: ${count(verdicts.worsened)} worse, ${count(verdicts.improved)} better`,
    `  starting tune ${startWords(start)}`,
    ...(inDraws === null ? [] : [`  each side's start ${inDraws}`]),
  ];
}

function range(line: Parameters<typeof extremeWords>[0]): string {
  const [low, high] = [extremeWords(line, "lowest"), extremeWords(line, "highest")];
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
