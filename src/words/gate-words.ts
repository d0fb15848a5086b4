// The reading of a gate and what it allows, in words. The judge has decided; nothing is decided here.
import type { GateId } from "../base/gates.js";
import type { Drift, GateResult } from "../compare/format.js";
import { count, percent, toThreeDigits } from "./numbers.js";

/** "falls 7.2 % at D 1.5"; why there is nothing to see where the gate could not be judged. */
export function readingWords(drift: Drift, result: GateResult): string {
  if (result.value === null) return `${result.outcome === "fail" ? "not judged: " : ""}${result.skipReason ?? ""}`;
  return READING_TEXTS[result.gate](result.value, drift, result);
}

/** How much of D a gate could judge: "3 of 10 D"; null where it judges no D lines. */
export function judgedWords({ judgedLines }: Pick<GateResult, "judgedLines">): string | null {
  if (judgedLines === null) return null;
  return `${judgedLines.lines === judgedLines.of ? "all" : `${count(judgedLines.lines)} of`} ${count(judgedLines.of)} D`;
}

/** The same of an axis's boundary. */
export const boundaryJudgedWords = ({ gates }: Drift, axis: GateResult["axis"]): string =>
  judgedWords(gates.find((one) => one.axis === axis && one.judgedLines !== null) ?? { judgedLines: null }) ?? "no D";

/** "up to 5 %". */
export const allowedWords = ({ gate, threshold }: GateResult): string =>
  threshold === null ? "anything" : ALLOWED[gate](threshold);

export const OUTCOME_WORDS = Object.freeze({ pass: "passed", fail: "FAILED", skipped: "skipped" });

type ReadingText = (value: number, drift: Drift, result: GateResult) => string;

const READING_TEXTS: Readonly<Record<GateId, ReadingText>> = {
  pinnedSafe: (value) => (value === 0 ? "still safe" : "no longer safe"),
  newSustained: (value) => (value === 0 ? "none" : `${count(value)} ${value === 1 ? "point" : "points"}`),
  boundaryFall: (value, drift, { axis, d }) => {
    if (value === 0) return "does not fall";
    if (value < 0) return `rises, by ${percent(-value / 100)} at the least`;
    const row = drift.axes[axis].shift.perD.find((one) => one.d === d);
    const least = row?.state === "into the grid" ? "at least " : "";
    return row?.state === "closed"
      ? `no P is stable any more at D ${toThreeDigits(d ?? 0)}`
      : `falls ${least}${percent(value / 100)} at D ${toThreeDigits(d ?? 0)}`;
  },
  safeShrink: (value) => {
    if (value === 0) return "as large as before";
    return value < 0 ? `grows ${percent(-value / 100)}` : `shrinks ${percent(value / 100)}`;
  },
  startSafe: (value, drift, { axis }) => (value === 0 ? "both inside" : outsideWords(drift, axis)),
};

function outsideWords(drift: Drift, axis: GateResult["axis"]): string {
  const { before, after } = drift.axes[axis].start;
  const out = (room: number | null | undefined) => room == null || room < 0;
  const old = out(before?.roomInOther) ? ["the old one is no longer safe"] : [];
  if (after === null) return [...old, "there is no new one"].join(", ");
  return [...old, ...(out(after.roomInOther) ? ["the new one was not safe before"] : [])].join(", ");
}

const ALLOWED: Readonly<Record<GateId, (threshold: number) => string>> = {
  pinnedSafe: () => "stays safe",
  newSustained: (threshold) => (threshold === 0 ? "none" : `up to ${count(threshold)} points`),
  boundaryFall: (threshold) => `a fall up to ${percent(threshold / 100)}`,
  safeShrink: (threshold) => `up to ${percent(threshold / 100)} smaller`,
  startSafe: () => "both inside",
};
