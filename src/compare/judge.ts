// The judge: the only one who decides whether drift is a regression. A gate fails when its value exceeds what is allowed.
import { GATES, type GateId, type Gates } from "../base/gates.js";
import type { Axis, AxisDrift, GateResult, SkipReason } from "./format.js";

/** What a gate saw: a value in its unit (with the D it belongs to), or why there is none. */
export type Seen = { readonly value: number; readonly d?: number } | { readonly skipped: SkipReason };

const LOOK: Readonly<Record<GateId, (drift: AxisDrift) => Seen>> = Object.freeze({
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

/** Over the D lines that held safe ground: beyond them a fold may close on either side, and nobody flies there. */
function largestFall({ shift, safe }: AxisDrift): Seen {
  const judged = shift.perD.filter((_, row) => /[kl]/.test(safe.points[row] ?? ""));
  const told = judged.flatMap(({ d, percent }) => (percent === null ? [] : [{ d, value: 0 - percent }]));
  const [first, ...rest] = told;
  if (safe.before === 0) return { skipped: "no safe ground before" };
  if (first === undefined) return { skipped: "no boundary in the grid" };
  return rest.reduce((most, one) => (one.value > most.value ? one : most), first);
}

/** Every gate on one axis, gravest first. */
export function judgeAxis(axis: Axis, drift: AxisDrift, gates: Gates): GateResult[] {
  return GATES.map(({ id }) => decide(id, axis, gates[id], LOOK[id](drift)));
}

function decide(gate: GateId, axis: Axis, allowed: number | null, seen: Seen): GateResult {
  const nothing = { gate, axis, allowed, value: null, d: null };
  if (allowed === null) return { ...nothing, outcome: "skipped", skipped: "switched off" };
  if ("skipped" in seen) return { ...nothing, outcome: "skipped", skipped: seen.skipped };
  const { value, d = null } = seen;
  return { gate, axis, outcome: value > allowed ? "fail" : "pass", value, allowed, d, skipped: null };
}

export const outcomeOf = (results: readonly GateResult[]): "pass" | "regression" =>
  results.some(({ outcome }) => outcome === "fail") ? "regression" : "pass";
