// The judge: the only place that decides whether drift is a regression. A gate fails when its value exceeds what is allowed.
import { GATES, type GateId, type Gates } from "../base/gates.js";
import type { Axis, AxisDrift, GateResult, JudgedLines, ShiftAtD, SkipReason } from "./format.js";

/** The reading of a gate: a value in its unit (with the D it belongs to), or why there is none. */
type GateReading = ({ readonly value: number; readonly d?: number } | { readonly skipReason: SkipReason }) & {
  readonly judgedLines?: JudgedLines;
};

const GATE_READINGS: Readonly<Record<GateId, (drift: AxisDrift) => GateReading>> = Object.freeze({
  pinnedSafe: ({ pinned }) => {
    if (pinned === null) return { skipReason: "no pinned tune" };
    if (!pinned.before.safe) return { skipReason: "pinned tune was not safe before" };
    return { value: pinned.after.safe ? 0 : 1 };
  },
  newSustained: ({ safe, verdicts }) =>
    safe.before === 0 ? { skipReason: "no safe ground before" } : { value: verdicts.newSustained },
  boundaryFall: largestFall,
  safeShrink: ({ safe }) =>
    safe.percent === null ? { skipReason: "no safe ground before" } : { value: 0 - safe.percent },
  startSafe: ({ start: { before, after } }) => {
    if (before === null) return { skipReason: "no starting tune before" };
    const outside = (room: number | null | undefined) => (room != null && room >= 0 ? 0 : 1);
    return { value: outside(before.roomInOther) + outside(after?.roomInOther) };
  },
});

/**
 * The D lines on which the boundary can be judged: it is there on both sides, fell into the grid, left it, or closed. None
 * on which it lies beyond the grid on both sides, and none beyond the last D of safe ground: there the boundary folds
 * back, so that a fall of two per cent elsewhere is one of six or of all of it, and nobody chooses gains there.
 */
export function boundaryJudged({ shift, safe }: Pick<AxisDrift, "shift" | "safe">): ShiftAtD[] {
  const last = safe.points.findLastIndex((row) => /[bl]/.test(row));
  return shift.perD.filter(({ percent }, row) => percent !== null && (last === -1 || row <= last));
}

function largestFall(drift: AxisDrift): GateReading {
  const falls = boundaryJudged(drift).map(({ d, percent }) => ({ d, value: 0 - (percent as number) }));
  const judgedLines = { lines: falls.length, of: drift.shift.perD.length };
  const [first, ...rest] = falls;
  if (first === undefined) return { skipReason: "no boundary in the grid", judgedLines };
  return { ...rest.reduce((most, one) => (one.value > most.value ? one : most), first), judgedLines };
}

/** Every gate on one axis, gravest first. `skippedFail`: one that could not be judged fails, unless it is switched off. */
export function judgeAxis(axis: Axis, drift: AxisDrift, gates: Gates, skippedFail = false): GateResult[] {
  return GATES.map(({ id }) => {
    const result = decide(id, axis, gates[id], GATE_READINGS[id](drift));
    const fails = skippedFail && result.outcome === "skipped" && result.skipReason !== "switched off";
    return fails ? { ...result, outcome: "fail" } : result;
  });
}

function decide(gate: GateId, axis: Axis, threshold: number | null, reading: GateReading): GateResult {
  const nothing = { gate, axis, threshold, value: null, d: null, judgedLines: reading.judgedLines ?? null };
  if (threshold === null) return { ...nothing, outcome: "skipped", skipReason: "switched off" };
  if ("skipReason" in reading) return { ...nothing, outcome: "skipped", skipReason: reading.skipReason };
  const { value, d = null } = reading;
  return { ...nothing, outcome: value > threshold ? "fail" : "pass", value, d, skipReason: null };
}

export const outcomeOf = (results: readonly GateResult[]): "pass" | "regression" =>
  results.some(({ outcome }) => outcome === "fail") ? "regression" : "pass";
