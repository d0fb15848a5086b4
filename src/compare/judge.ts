// The judge: the only place that decides whether drift is a regression. A gate fails when its value exceeds what is allowed.
import { GATES, type GateId, type Gates } from "../base/gates.js";
import type { Axis, AxisDrift, GateResult, JudgedLines, ShiftAtD, SkipReason } from "./format.js";

/** The reading of a gate: a value in its unit (with the D it belongs to), or why there is none. */
type GateReading = ({ readonly value: number; readonly d?: number } | { readonly skipped: SkipReason }) & {
  readonly judged?: JudgedLines;
};

const GATE_READINGS: Readonly<Record<GateId, (drift: AxisDrift) => GateReading>> = Object.freeze({
  pinnedSafe: ({ pinned }) => {
    if (pinned === null) return { skipped: "no pinned tune" };
    if (!pinned.before.safe) return { skipped: "pinned tune was not safe before" };
    return { value: pinned.after.safe ? 0 : 1 };
  },
  newSustained: ({ safe, verdicts }) =>
    safe.before === 0 ? { skipped: "no safe ground before" } : { value: verdicts.newSustained },
  boundaryFall: largestFall,
  safeShrink: ({ safe }) =>
    safe.percent === null ? { skipped: "no safe ground before" } : { value: 0 - safe.percent },
  startSafe: ({ start: { before, after } }) => {
    if (before === null) return { skipped: "no starting tune before" };
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
  const last = safe.points.findLastIndex((row) => /[kl]/.test(row));
  return shift.perD.filter(({ percent }, row) => percent !== null && (last === -1 || row <= last));
}

function largestFall(drift: AxisDrift): GateReading {
  const falls = boundaryJudged(drift).map(({ d, percent }) => ({ d, value: 0 - (percent as number) }));
  const judged = { lines: falls.length, of: drift.shift.perD.length };
  const [first, ...rest] = falls;
  if (first === undefined) return { skipped: "no boundary in the grid", judged };
  return { ...rest.reduce((most, one) => (one.value > most.value ? one : most), first), judged };
}

/** Every gate on one axis, gravest first. */
export function judgeAxis(axis: Axis, drift: AxisDrift, gates: Gates): GateResult[] {
  return GATES.map(({ id }) => decide(id, axis, gates[id], GATE_READINGS[id](drift)));
}

function decide(gate: GateId, axis: Axis, allowed: number | null, reading: GateReading): GateResult {
  const nothing = { gate, axis, allowed, value: null, d: null, judged: reading.judged ?? null };
  if (allowed === null) return { ...nothing, outcome: "skipped", skipped: "switched off" };
  if ("skipped" in reading) return { ...nothing, outcome: "skipped", skipped: reading.skipped };
  const { value, d = null } = reading;
  return { ...nothing, outcome: value > allowed ? "fail" : "pass", value, d, skipped: null };
}

export const outcomeOf = (results: readonly GateResult[]): "pass" | "regression" =>
  results.some(({ outcome }) => outcome === "fail") ? "regression" : "pass";
