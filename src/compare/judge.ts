// The judge: the only place that decides whether drift is a regression. A gate fails when its value exceeds what is allowed.
import {
  type AllGates,
  type GateId,
  type GateJudge,
  MAP_GATES,
  type MapGateId,
  STRIP_GATES,
  type StripGateId,
} from "../base/gates.js";
import type {
  Axis,
  AxisDrift,
  GateResult,
  JudgedLines,
  MapGateResult,
  ShiftAtD,
  SkipReason,
  StripDrift,
  StripGateResult,
} from "./format.js";
import type { StripCase } from "./strip-drift.js";

/** The reading of a gate: a value in its unit (with the D it belongs to), or why there is none. */
type GateReading = ({ readonly value: number; readonly d?: number } | { readonly skipReason: SkipReason }) & {
  readonly judgedLines?: JudgedLines;
};

type ReadGate = (drift: AxisDrift, judge: GateJudge, threshold: number | null) => GateReading;

const GATE_READINGS: Readonly<Record<MapGateId, ReadGate>> = Object.freeze({
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

/**
 * `lower`: the end of the interval with the larger fall, never milder than the middle. A D without an interval can fail the
 * gate by its middle, since that end lies lower still, but cannot pass it.
 */
function largestFall(drift: AxisDrift, judge: GateJudge, threshold: number | null): GateReading {
  const falls = boundaryJudged(drift).map(({ d, percent, interval }) => {
    const fall = 0 - (percent as number);
    if (judge === "middle") return { d, value: fall, known: true };
    return { d, value: Math.max(fall, 0 - (interval?.low ?? Number.POSITIVE_INFINITY)), known: interval !== undefined };
  });
  const judgedLines = { lines: falls.filter(({ known }) => known).length, of: drift.shift.perD.length };
  const [first, ...rest] = falls;
  if (first === undefined) return { skipReason: "no boundary in the grid", judgedLines };
  const { d, value } = rest.reduce((most, one) => (one.value > most.value ? one : most), first);
  const fails = threshold !== null && value > threshold;
  if (judgedLines.lines === 0 && !fails)
    return {
      skipReason: drift.paired === undefined ? "no draws on both sides" : "no interval at any D",
      judgedLines,
    };
  return { d, value, judgedLines };
}

const STRIP_READINGS: Readonly<Record<StripGateId, (drift: StripDrift) => GateReading>> = Object.freeze({
  stripOwnPasses: ({ before, after }) =>
    before.choice === before.declared
      ? { value: after.choice === after.declared ? 0 : 1 }
      : { skipReason: "model's own gain failed before" },
  stripChoicePasses: ({ before: { choice }, after: { range } }) => {
    if (choice === null) return { skipReason: "no gain passed before" };
    return { value: range !== null && range.from <= choice && choice <= range.to ? 0 : 1 };
  },
  stripRangeFall: ({ before, after, toPercent }) => {
    if (before.range === null) return { skipReason: "no gain passed before" };
    if (after.range === null) return { value: 100 };
    return toPercent === null ? { skipReason: "passes to the strip's end" } : { value: 0 - toPercent };
  },
});

/** How gates judge. */
interface Judging {
  /** Which value of a drift with an interval. */
  readonly judge?: GateJudge;
  /** A gate that could not be judged fails, unless it is switched off. */
  readonly skippedFail?: boolean;
}

/** Every gate on one axis of the map, gravest first. */
export function judgeAxis(
  axis: Axis,
  drift: AxisDrift,
  gates: AllGates,
  { judge = "middle", skippedFail = false }: Judging = {},
): MapGateResult[] {
  return MAP_GATES.map(({ id }): MapGateResult => {
    const threshold = gates[id];
    const decided = decide(id, axis, threshold, GATE_READINGS[id](drift, judge, threshold));
    const result = id === "boundaryFall" && judge === "lower" ? { ...decided, judge } : decided;
    return skippedFail ? skippedFails(result) : result;
  });
}

/** Every gate on one gain that a side judged along a strip, gravest first. */
export function judgeStrip(
  found: StripCase,
  gates: AllGates,
  { skippedFail = false }: Judging = {},
): StripGateResult[] {
  return STRIP_GATES.map(({ id }): StripGateResult => {
    const reading = "drift" in found ? STRIP_READINGS[id](found.drift) : { skipReason: found.skipReason };
    const result = decide(id, found.axis, gates[id], reading);
    return skippedFail ? skippedFails(result) : result;
  });
}

function skippedFails<R extends GateResult>(result: R): R {
  const fails = result.outcome === "skipped" && result.skipReason !== "switched off";
  return fails ? { ...result, outcome: "fail" } : result;
}

function decide<Id extends GateId, A extends GateResult["axis"]>(
  gate: Id,
  axis: A,
  threshold: number | null,
  reading: GateReading,
) {
  const nothing = { gate, axis, threshold, value: null, d: null, judgedLines: reading.judgedLines ?? null };
  if (threshold === null) return { ...nothing, outcome: "skipped", skipReason: "switched off" } as const;
  if ("skipReason" in reading) return { ...nothing, outcome: "skipped", skipReason: reading.skipReason } as const;
  const { value, d = null } = reading;
  return { ...nothing, outcome: value > threshold ? "fail" : "pass", value, d, skipReason: null } as const;
}

export const outcomeOf = (results: readonly GateResult[]): "pass" | "regression" =>
  results.some(({ outcome }) => outcome === "fail") ? "regression" : "pass";
