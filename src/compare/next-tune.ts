// What to set now: whether the tune of before still does, what rules it out, and the candidate's own start with its way up.
import { MEASURES } from "../base/measures.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import { type ConstraintName, constraintTitle } from "../map/field.js";
import type { LimitRoom, PinnedPoint, StabilityMap, StartingTune } from "../map/format.js";
import { slack } from "../map/verdict.js";
import { wantedMargins } from "../map/wanted-margins.js";
import type { Axis } from "./format.js";
import { tightestIn } from "./inside.js";
import { marginCase } from "./margin-case.js";
import type { NextTune, Reason } from "./next-tune-format.js";

export function nextTune(axis: Axis, base: StabilityMap, candidate: StabilityMap): NextTune {
  const { pinned, start } = base.axes[axis];
  const tune = pinned ?? start;
  const before = tune === null ? null : { p: tune.p, d: tune.d, pinned: pinned !== undefined };
  const now = candidate.axes[axis].pinned;
  const reason =
    before === null
      ? null
      : now === undefined
        ? reasonBetween(candidate, axis, before)
        : reasonAt(candidate, axis, now);
  const next = candidate.axes[axis].start;
  return {
    before,
    holds: before === null ? null : reason === null,
    reason,
    start: next === null ? null : startOf(candidate, axis, next, before),
  };
}

type Gains = Readonly<Record<"p" | "d", number>>;

function startOf(map: StabilityMap, axis: Axis, start: StartingTune, before: Gains | null): NextTune["start"] {
  const factor = (gain: "p" | "d") =>
    before === null || before[gain] === 0 ? null : roundToTwelveDigits(start[gain] / before[gain]);
  const climb = (map.ladder?.steps ?? []).filter((step) => step.stage !== "check" && step.axes[axis] !== undefined);
  const first = climb[0]?.axes[axis];
  return {
    p: start.p,
    d: start.d,
    pFactor: factor("p"),
    dFactor: factor("d"),
    room: nearestLimit(start),
    climb: first === undefined ? null : { flights: climb.length, p: first.p, d: first.d },
  };
}

const SIDES = [
  ["more P", "pUp"],
  ["less P", "pDown"],
  ["more D", "dUp"],
  ["less D", "dDown"],
] as const;

/** Of the four ways in which one gain moves that with the smallest factor to its limit. */
function nearestLimit({ room }: StartingTune): NonNullable<NextTune["start"]>["room"] {
  const away = (factor: number) => Math.max(factor, 1 / factor);
  const met = SIDES.flatMap(([side, key]) => {
    const { factor, limit }: LimitRoom = room[key];
    return factor === null ? [] : [{ side, factor, limit }];
  });
  const [nearest] = met.sort((one, other) => away(one.factor) - away(other.factor));
  return nearest ?? null;
}

/** Null where the point is safe. */
function reasonAt(map: StabilityMap, axis: Axis, point: PinnedPoint): Reason | null {
  if (point.safe) return null;
  const { verdict, decidedBy, boundary } = point;
  if (verdict === "sustained")
    return {
      title: constraintTitle("sustained"),
      value: point.p,
      limit: boundary.p,
      unit: map.units.p,
      better: "low",
      by: decidedBy,
    };
  if (verdict === "clean") return shortMargin(map, axis, point);
  // A trial that failed at a measure has no value of it: its verdict alone is named.
  const verdictAlone: Reason = { title: verdict, value: null, limit: null, unit: "1", better: "low", by: decidedBy };
  return beyondLimit(map, point) ?? verdictAlone;
}

/** The measure furthest beyond its limit, of those that argue for the verdict where any does. */
function beyondLimit({ limits }: StabilityMap, { verdict, measures, decidedBy }: PinnedPoint): Reason | null {
  const found = MEASURES.flatMap((measure) => {
    const { title, unit, better, argues } = measure;
    const [value, limit] = [measures[measure.id] ?? null, limits[measure.id] ?? null];
    const room = slack(measure, { value, absent: 0, variant: -1 }, limit);
    if (room === null || room >= 0 || better === null) return [];
    return [{ reason: { title, value, limit, unit, better, by: decidedBy }, room, argues: argues === verdict ? 0 : 1 }];
  });
  const [worst] = found.sort((one, other) => one.argues - other.argues || one.room - other.room);
  return worst?.reason ?? null;
}

function shortMargin(map: StabilityMap, axis: Axis, point: PinnedPoint): Reason {
  const { gainUp, gainDown, phase } = point.margins;
  const wanted = wantedMargins(map);
  const all = [
    { kind: "gainUp", title: "Gain margin upwards", value: gainUp ?? NO_END, limit: wanted.gain, unit: "dB" },
    { kind: "gainDown", title: "Gain margin downwards", value: gainDown ?? NO_END, limit: wanted.gain, unit: "dB" },
    { kind: "phase", title: "Phase margin", value: phase, limit: wanted.phase, unit: "deg" },
  ] as const;
  const share = ({ value, limit }: (typeof all)[number]) => value / (limit || 1);
  const { kind, ...shortest } = all.reduce((one, other) => (share(other) < share(one) ? other : one));
  return { ...shortest, better: "high", by: marginCase(map, axis, point, kind) };
}

const NO_END = Number.POSITIVE_INFINITY;

/** Between grid points no trial was made: what leaves no room there is interpolated. Null where there is room. */
function reasonBetween(map: StabilityMap, axis: Axis, gains: Gains): Reason | null {
  const found = tightestIn(map, axis, gains);
  if (found !== null && found.room >= 0) return null;
  if (found === null)
    return { title: "outside the swept range", value: null, limit: null, unit: "1", better: "high", by: null };
  const { constraint, room } = found;
  const limited = limitOf(map, constraint.name);
  // Room is a share of the limit, and not followed beyond the whole of it.
  const sign = limited.better === "low" ? -1 : 1;
  const value = limited.limit === null || room <= -1 ? null : limited.limit + sign * room * Math.abs(limited.limit);
  return {
    title: constraintTitle(constraint.name),
    value: value === null ? null : roundToTwelveDigits(value),
    ...limited,
    by:
      constraint.name === "gain margin"
        ? marginCase(map, axis, gains, "gain")
        : constraint.name === "phase margin"
          ? marginCase(map, axis, gains, "phase")
          : null,
  };
}

function limitOf(map: StabilityMap, name: ConstraintName): Pick<Reason, "limit" | "unit" | "better"> {
  const wanted = wantedMargins(map);
  if (name === "gain margin") return { limit: wanted.gain, unit: "dB", better: "high" };
  if (name === "phase margin") return { limit: wanted.phase, unit: "deg", better: "high" };
  const measure = MEASURES.find(({ id }) => id === name);
  if (measure === undefined) return { limit: null, unit: "1", better: "high" };
  return { limit: map.limits[measure.id] ?? null, unit: measure.unit, better: measure.better ?? "high" };
}
