// The reading of a gate and what it allows, in words. The judge has decided; nothing is decided here.
import { type GateId, type MapGateId, STRIP_GATES, type StripGateId } from "../base/gates.js";
import type { Drift, GateResult, MapGateResult, ShiftAtD, ShiftInterval, StripGateResult } from "../compare/format.js";
import { settingText } from "../map/gain-text.js";
import { lowerFirst } from "./limit-words.js";
import { count, intervalEnd, percent } from "./numbers.js";
import { stripTitle } from "./strip-words.js";

/** "falls 7.2 % at D 1.5"; why there is nothing to see where the gate could not be judged. */
export function readingWords(drift: Drift, result: GateResult): string {
  if (result.value === null) return `${result.outcome === "fail" ? "not judged: " : ""}${result.skipReason ?? ""}`;
  if (isOfStrip(result)) return STRIP_TEXTS[result.gate](result.value);
  return READING_TEXTS[result.gate](result.value, drift, result);
}

export const isOfStrip = (result: GateResult): result is StripGateResult =>
  STRIP_GATES.some(({ id }) => id === result.gate);

/** What a gate judged: "roll", or of a strip "yaw P". */
export const subjectWords = (result: GateResult): string =>
  isOfStrip(result) ? lowerFirst(stripTitle(result.axis)) : result.axis;

/** How much of D a gate could judge: "3 of 10 D"; null where it judges no D lines. */
export function judgedWords({ judgedLines }: Pick<GateResult, "judgedLines">): string | null {
  if (judgedLines === null) return null;
  return `${judgedLines.lines === judgedLines.of ? "all" : `${count(judgedLines.lines)} of`} ${count(judgedLines.of)} D`;
}

/** The same of an axis's boundary. */
export const boundaryJudgedWords = ({ gates }: Drift, axis: MapGateResult["axis"]): string =>
  judgedWords(gates.find((one) => one.axis === axis && one.judgedLines !== null) ?? { judgedLines: null }) ?? "no D";

/** "up to 5 %". */
export const allowedWords = ({ gate, threshold, judge }: GateResult): string =>
  threshold === null ? "anything" : `${ALLOWED[gate](threshold)}${judge === "lower" ? ", in 95 of 100 draws" : ""}`;

export const OUTCOME_WORDS = Object.freeze({ pass: "passed", fail: "FAILED", skipped: "skipped" });

type ReadingText = (value: number, drift: Drift, result: MapGateResult) => string;

const READING_TEXTS: Readonly<Record<MapGateId, ReadingText>> = {
  pinnedSafe: (value) => (value === 0 ? "still safe" : "no longer safe"),
  newSustained: (value) => (value === 0 ? "none" : `${count(value)} ${value === 1 ? "point" : "points"}`),
  boundaryFall: (value, drift, { axis, d, judge }) => {
    if (value === 0) return "does not fall";
    if (value < 0) return `rises, by ${percent(-value / 100)} at the least`;
    const row = drift.axes[axis].shift.perD.find((one) => one.d === d);
    const least = row?.state === "into the grid" ? "at least " : "";
    const at = `at D ${settingText(drift.own, "d", d ?? 0)}`;
    if (row?.state === "closed") return `no P is stable any more ${at}`;
    if (judge === "lower" && row?.interval !== undefined)
      return `may fall ${percent(value / 100)} ${at}${middleWords(row)}`;
    return `falls ${least}${percent(value / 100)}${fallInterval(row?.interval)} ${at}`;
  },
  safeShrink: (value) => {
    if (value === 0) return "as large as before";
    return value < 0 ? `grows ${percent(-value / 100)}` : `shrinks ${percent(value / 100)}`;
  },
  startSafe: (value, drift, { axis }) => (value === 0 ? "both inside" : outsideWords(drift, axis)),
};

const STRIP_TEXTS: Readonly<Record<StripGateId, (value: number) => string>> = {
  stripOwnPasses: (value) => (value === 0 ? "still passes" : "fails now"),
  stripChoicePasses: (value) => (value === 0 ? "still passes" : "no longer passes"),
  stripRangeFall: (value) => {
    if (value === 100) return "no gain passes any more";
    if (value === 0) return "upper end does not fall";
    return `upper end ${value < 0 ? "rises" : "falls"} ${percent(Math.abs(value) / 100)}`;
  },
};

/** ", 12 % in the middle". */
function middleWords({ percent: middle }: ShiftAtD): string {
  if (middle === null) return "";
  return middle > 0 ? `, rises ${percent(middle / 100)} in the middle` : `, ${percent(-middle / 100)} in the middle`;
}

/** " (8 to 17 %)", of falls; a rise among them has its own word. */
function fallInterval(interval: ShiftInterval | undefined): string {
  if (interval === undefined) return "";
  const { low, high } = interval;
  if (low >= 0) return ` (rises ${intervalEnd(low)} to ${intervalEnd(high)}\u00a0%)`;
  if (high > 0) return ` (${intervalEnd(high)}\u00a0% up to ${intervalEnd(0 - low)}\u00a0% down)`;
  return ` (${intervalEnd(0 - high)} to ${intervalEnd(0 - low)}\u00a0%)`;
}

function outsideWords(drift: Drift, axis: MapGateResult["axis"]): string {
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
  stripOwnPasses: () => "passes",
  stripChoicePasses: () => "passes",
  stripRangeFall: (threshold) => `a fall up to ${percent(threshold / 100)}`,
};
