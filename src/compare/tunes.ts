// Drift of the starting tune and of the pinned tune, on both sides.
import type { StabilityMap } from "../map/format.js";
import type { Axis, PinnedDrift, Place, StartDrift } from "./format.js";
import { roomIn } from "./inside.js";
import { change } from "./shift.js";

export function startDrift(axis: Axis, base: StabilityMap, candidate: StabilityMap): StartDrift {
  const before = placeOf(axis, base, candidate);
  const after = placeOf(axis, candidate, base);
  const percent = (gain: "p" | "d") =>
    before === null || after === null || before[gain] === 0 ? null : change(before[gain], after[gain]);
  return { before, after, pPercent: percent("p"), dPercent: percent("d") };
}

function placeOf(axis: Axis, own: StabilityMap, other: StabilityMap): Place | null {
  const { start } = own.axes[axis];
  return start === null ? null : { p: start.p, d: start.d, roomInOther: roomIn(other, axis, start) };
}

/** Null where either map holds no pinned tune; the same one, since the questions are the same. */
export function pinnedDrift(axis: Axis, base: StabilityMap, candidate: StabilityMap): PinnedDrift | null {
  const [before, after] = [base.axes[axis].pinned, candidate.axes[axis].pinned];
  return before === undefined || after === undefined ? null : { before, after };
}
